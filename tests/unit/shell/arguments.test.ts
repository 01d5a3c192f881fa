import { describe, expect, it } from 'vitest';
import { readArguments } from '../../../electron/main/arguments.ts';

describe('arguments of the window', () => {
  it('takes the archive in either spelling', () => {
    expect(readArguments(['electron', 'app', '--archive', 'a.gaugemark'], {}).archive).toBe('a.gaugemark');
    expect(readArguments(['electron', 'app', '--archive=b.gaugemark'], {}).archive).toBe('b.gaugemark');
  });

  it('does not take the next switch for a file', () => {
    expect(readArguments(['electron', '--archive', '--software-drawing'], {})).toEqual({
      archive: null,
      rulesFolder: null,
      softwareDrawing: true,
      print: null,
    });
  });

  it('draws by software when the switch or the environment says so, and not otherwise', () => {
    expect(readArguments([], { GAUGEMARK_SOFTWARE_DRAWING: '1' }).softwareDrawing).toBe(true);
    expect(readArguments([], { GAUGEMARK_SOFTWARE_DRAWING: '0' }).softwareDrawing).toBe(false);
  });

  it("lets Electron's own switches pass", () => {
    expect(readArguments(['electron', '--inspect=0', '--no-sandbox', 'app'], {})).toEqual({
      archive: null,
      rulesFolder: null,
      softwareDrawing: false,
      print: null,
    });
  });
});

it('prints only where both the job and the file to print to are named', () => {
  expect(readArguments(['electron', '--print', 'job.json'], {}).print).toBeNull();
  expect(readArguments(['electron', '--print', 'job.json', '--print-to', 'c.pdf'], {}).print).toEqual({
    job: 'job.json',
    out: 'c.pdf',
  });
});
