/** A hand on the mouse: points at what is seen, scrolls by wheel, and types only into what was clicked. */
import type { Locator, Page } from 'playwright';

const WHEEL_TURNS_MAX = 60;
const WHEEL_PX = 120;
/** As long as it takes to look where the page has come to after a turn of the wheel. */
const LOOK_MS = 50;

export class Mouse {
  readonly #page: Page;
  clicks = 0;

  constructor(page: Page) {
    this.#page = page;
  }

  /** Presses in its middle, where it must be the topmost thing; turns the wheel over the sheet until it is seen. */
  async click(target: Locator): Promise<void> {
    const what = target.first();
    await what.waitFor();
    for (let turns = 0; turns <= WHEEL_TURNS_MAX; turns++) {
      const at = await what.evaluate((element) => {
        const box = element.getBoundingClientRect();
        const x = box.x + box.width / 2;
        const y = box.y + box.height / 2;
        const top = document.elementFromPoint(x, y);
        const seen = top !== null && element.contains(top);
        return { x, y, seen, below: y > innerHeight / 2, sheetX: innerWidth / 2, sheetY: innerHeight / 2 };
      });
      if (at.seen) {
        this.clicks++;
        await this.#page.mouse.click(at.x, at.y);
        return;
      }
      await this.#page.mouse.move(at.sheetX, at.sheetY);
      await this.#page.mouse.wheel(0, at.below ? WHEEL_PX : -WHEEL_PX);
      await this.#page.waitForTimeout(LOOK_MS);
    }
    throw new Error(`The wheel does not bring ${String(target)} where it can be pressed.`);
  }

  /** Opens the list by pressing it; the list itself is a window of the system, outside the page, which is answered for. */
  async choose(list: Locator, name: string): Promise<void> {
    await this.click(list);
    await list.selectOption(name);
  }

  async typeInto(field: Locator, text: string): Promise<void> {
    await this.click(field);
    await this.#page.keyboard.type(text);
  }
}
