/** The menu, in our own words. What it means is the page's business; the window's own matters are done here. */
import { app, Menu, type MenuItemConstructorOptions } from 'electron';
import { type Theme, THEMES } from '../../core/contract/looks.ts';
import type { MenuCommand } from '../../core/contract/window-requests.ts';
import { shellWords } from './words/shell-words.ts';

export interface MenuOptions {
  readonly theme: Theme;
  readonly onCommand: (command: MenuCommand) => void;
  readonly onTheme: (theme: Theme) => void;
  readonly onChangeArchive: (how: 'open' | 'new') => void;
  readonly onNaturalSize: () => void;
}

/** Reload and developer tools are absent on purpose: neither has a place beside a running pull. */
export function setMenu({ theme, onCommand, onTheme, onChangeArchive, onNaturalSize }: MenuOptions): void {
  const words = shellWords().menu;
  const command = (label: string, name: MenuCommand, accelerator?: string): MenuItemConstructorOptions => ({
    label,
    id: name,
    ...(accelerator === undefined ? {} : { accelerator }),
    click: () => onCommand(name),
  });
  const line: MenuItemConstructorOptions = { type: 'separator' };
  const template: MenuItemConstructorOptions[] = [
    ...(process.platform === 'darwin' ? [{ role: 'appMenu' } as const] : []),
    {
      label: words.file,
      submenu: [
        command(words.newSpecimen, 'new-specimen', 'CommandOrControl+N'),
        command(words.pullsKept, 'open-archive-list', 'CommandOrControl+O'),
        command(words.instruments, 'instruments', 'CommandOrControl+I'),
        command(words.people, 'people', 'CommandOrControl+Shift+P'),
        line,
        command(words.exportPull, 'export-pull', 'CommandOrControl+E'),
        line,
        { label: words.otherArchive, id: 'other-archive', click: () => onChangeArchive('open') },
        { label: words.newArchive, id: 'new-archive', click: () => onChangeArchive('new') },
        command(words.checkArchive, 'check-archive'),
        command(words.backUp, 'back-up-archive'),
        command(words.restore, 'restore-backup'),
        line,
        command(words.importFile, 'import-file'),
        command(words.takeIn, 'merge-archive'),
        command(words.exportFound, 'export-results'),
        line,
        ...(process.platform === 'darwin'
          ? [{ role: 'close' } as const]
          : [
              {
                label: words.quit,
                id: 'quit',
                accelerator: 'CommandOrControl+Q',
                click: () => app.quit(),
              } as const,
            ]),
      ],
    },
    {
      label: words.edit,
      submenu: [
        { role: 'undo', label: words.undo },
        { role: 'redo', label: words.redo },
        line,
        { role: 'cut', label: words.cut },
        { role: 'copy', label: words.copy },
        { role: 'paste', label: words.paste },
        { role: 'selectAll', label: words.selectAll },
      ],
    },
    {
      label: words.view,
      submenu: [
        ...THEMES.map((name): MenuItemConstructorOptions => ({
          label: words.themes[name],
          id: `theme-${name}`,
          type: 'radio',
          checked: name === theme,
          click: () => onTheme(name),
        })),
        line,
        { role: 'zoomIn', label: words.larger },
        { role: 'zoomOut', label: words.smaller },
        // Without its usual key, Control+0: at the pull that key takes the zero.
        { label: words.naturalSize, id: 'natural-size', click: onNaturalSize },
        line,
        { role: 'togglefullscreen', label: words.fullScreen },
      ],
    },
    {
      label: words.help,
      submenu: [
        command(words.whatToDo, 'what-to-do', 'CommandOrControl+J'),
        command(words.guide, 'guide', 'F2'),
        command(words.tour, 'tour'),
        command(words.keys, 'show-shortcuts', 'F1'),
        command(words.cautions, 'show-cautions'),
        command(words.selfCheck, 'self-check'),
        command(words.about, 'about'),
      ],
    },
  ];
  Menu.setApplicationMenu(Menu.buildFromTemplate(template));
}
