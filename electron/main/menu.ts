/**
 * The menu: what the page says can be done, and the window's own matters. What is pressed of the page's things is told to
 * the page, which looks once more whether it can be done.
 */
import { app, BrowserWindow, Menu, type MenuItemConstructorOptions } from 'electron';
import type { MenuEntry, MenuName } from '../../core/contract/window-requests.ts';
import { shellWords } from './words/shell-words.ts';

export interface MenuOptions {
  readonly onPressed: (id: string) => void;
  readonly onNaturalSize: () => void;
}

type Item = MenuItemConstructorOptions;
const LINE: Item = { type: 'separator' };

/** Reload and developer tools are absent on purpose: neither has a place beside a running pull. */
export class WindowMenu {
  readonly #options: MenuOptions;
  /** Of a page that is loaded again it stays: what is pressed meanwhile waits for it. */
  #entries: readonly MenuEntry[] = [];

  constructor(options: MenuOptions) {
    this.#options = options;
  }

  /** What the page offers from now on. Nothing that is open closes where only marks and possibilities changed. */
  offer(entries: readonly MenuEntry[]): void {
    const same = shape(entries) === shape(this.#entries);
    this.#entries = entries;
    const menu = Menu.getApplicationMenu();
    if (!same || menu === null) {
      this.show();
      return;
    }
    for (const { id, enabled, chosen } of entries) {
      const item = menu.getMenuItemById(id);
      if (item === null) continue;
      item.enabled = enabled;
      if (chosen === true) item.checked = true;
    }
  }

  /** In the language that is spoken now. */
  show(): void {
    Menu.setApplicationMenu(Menu.buildFromTemplate(this.#template()));
  }

  #template(): Item[] {
    const words = shellWords().menu;
    const isMac = process.platform === 'darwin';
    const quit: Item = isMac
      ? { role: 'close' }
      : // Without its usual key: beside Control+A and Control+1 it would end the program, and with it what is half typed.
        { label: words.quit, id: 'quit', click: () => app.quit() };
    // macOS takes these keys from the menu alone; elsewhere the field has them, and the page's own stand beside theirs.
    const text = (role: 'undo' | 'redo', label: string): Item =>
      isMac
        ? { role, label }
        : {
            label,
            click: (_item, window) => {
              if (window instanceof BrowserWindow) window.webContents[role]();
            },
          };
    const own = (...items: Item[]): Item[] => [LINE, ...items];
    const filled = (menu: MenuName, ...after: Item[]): Item[] => {
      const items = [...this.#itemsOf(menu), ...after];
      return [{ label: words[menu], submenu: items[0] === LINE ? items.slice(1) : items }];
    };
    return [
      ...(isMac ? [{ role: 'appMenu' } as const] : []),
      ...filled('file', ...own(quit)),
      {
        label: words.edit,
        submenu: [
          ...this.#itemsOf('edit'),
          ...(this.#entries.length === 0 ? [] : [LINE]),
          // In a text the keys of the two above do this.
          text('undo', words.undo),
          text('redo', words.redo),
          LINE,
          { role: 'cut', label: words.cut },
          { role: 'copy', label: words.copy },
          { role: 'paste', label: words.paste },
          { role: 'selectAll', label: words.selectAll },
        ],
      },
      // Until the page has said what there is, there is nothing to open.
      ...(this.#entries.length === 0
        ? []
        : (['set', 'pull', 'search', 'go'] as const).flatMap((menu) => filled(menu))),
      ...filled(
        'view',
        ...own(
          { role: 'zoomIn', label: words.larger },
          { role: 'zoomOut', label: words.smaller },
          // Without its usual key, Control+0: at the pull that key takes the zero.
          { label: words.naturalSize, id: 'natural-size', click: this.#options.onNaturalSize },
        ),
        ...own({ role: 'togglefullscreen', label: words.fullScreen }),
      ),
      ...(this.#entries.length === 0 ? [] : filled('help')),
    ];
  }

  #itemsOf(menu: MenuName): Item[] {
    return this.#entries
      .filter((entry) => entry.menu === menu)
      .flatMap((entry) => [...(entry.begins ? [LINE] : []), this.#item(entry)]);
  }

  #item({ id, label, keys, everywhere, enabled, chosen }: MenuEntry): Item {
    return {
      id,
      label: label.replaceAll('&', '&&'),
      enabled,
      ...(chosen === null ? {} : { type: 'radio', checked: chosen }),
      ...(keys === null ? {} : accelerator(keys, everywhere)),
      click: () => this.#options.onPressed(id),
    };
  }
}

/**
 * Shown and never taken: the page listens to its keys itself, and knows where each of them counts. macOS can't show one
 * without taking it where the page has left it alone; there those of one place are not shown.
 */
function accelerator(keys: string, everywhere: boolean): Item {
  if (process.platform === 'darwin' && !everywhere) return {};
  return { accelerator: keys.replace('Control', 'CommandOrControl'), registerAccelerator: false };
}

const shape = (entries: readonly MenuEntry[]): string =>
  JSON.stringify(entries.map((entry) => ({ ...entry, enabled: true, chosen: entry.chosen !== null })));
