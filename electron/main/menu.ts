/** The menu, in our own words. What it means is the page's business; the window's own matters are done here. */
import { app, Menu, type MenuItemConstructorOptions } from 'electron';
import { type MenuCommand, type Theme, THEMES } from '../../core/contract/window-requests.ts';

export interface MenuOptions {
  readonly theme: Theme;
  readonly onCommand: (command: MenuCommand) => void;
  readonly onTheme: (theme: Theme) => void;
  readonly onChangeArchive: (how: 'open' | 'new') => void;
  readonly onNaturalSize: () => void;
}

const THEME_WORDS: Readonly<Record<Theme, string>> = {
  system: 'As the System',
  light: 'Light (Chalk)',
  dark: 'Dark (Soot)',
};

/** Reload and developer tools are absent on purpose: neither has a place beside a running pull. */
export function setMenu({ theme, onCommand, onTheme, onChangeArchive, onNaturalSize }: MenuOptions): void {
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
      label: '&File',
      submenu: [
        command('New Specimen', 'new-specimen', 'CommandOrControl+N'),
        command('Pulls Kept', 'open-archive-list', 'CommandOrControl+O'),
        command('Instruments', 'instruments', 'CommandOrControl+I'),
        line,
        command('Export This Pull…', 'export-pull', 'CommandOrControl+E'),
        line,
        { label: 'Other Archive…', id: 'other-archive', click: () => onChangeArchive('open') },
        { label: 'New Archive…', id: 'new-archive', click: () => onChangeArchive('new') },
        command('Check the Archive', 'check-archive'),
        command('Back Up the Archive…', 'back-up-archive'),
        line,
        ...(process.platform === 'darwin'
          ? [{ role: 'close' } as const]
          : [
              {
                label: '&Quit',
                id: 'quit',
                accelerator: 'CommandOrControl+Q',
                click: () => app.quit(),
              } as const,
            ]),
      ],
    },
    {
      label: '&Edit',
      submenu: [
        { role: 'undo' },
        { role: 'redo' },
        line,
        { role: 'cut' },
        { role: 'copy' },
        { role: 'paste' },
        { role: 'selectAll' },
      ],
    },
    {
      label: '&View',
      submenu: [
        ...THEMES.map((name): MenuItemConstructorOptions => ({
          label: THEME_WORDS[name],
          id: `theme-${name}`,
          type: 'radio',
          checked: name === theme,
          click: () => onTheme(name),
        })),
        line,
        { role: 'zoomIn', label: 'Larger' },
        { role: 'zoomOut', label: 'Smaller' },
        // Without its usual key, Control+0: at the pull that key takes the zero.
        { label: 'Natural Size', id: 'natural-size', click: onNaturalSize },
        line,
        { role: 'togglefullscreen', label: 'Full Screen' },
      ],
    },
    {
      label: '&Help',
      submenu: [
        command('Keys', 'show-shortcuts', 'F1'),
        command('Cautions', 'show-cautions'),
        command('Self-Check', 'self-check'),
        command('About Gaugemark', 'about'),
      ],
    },
  ];
  Menu.setApplicationMenu(Menu.buildFromTemplate(template));
}
