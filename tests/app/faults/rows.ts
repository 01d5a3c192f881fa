/**
 * What a pull must survive, row by row, and the tests that provoke it. What of a row can't be provoked here says why, and
 * what the code does about it, here and in DEVELOPERS.md. `tests/unit/setup/fault-rows.test.ts` looks that every test is
 * there and names its row, and that DEVELOPERS.md says the same.
 */

export interface FaultRow {
  readonly fault: string;
  /** File under `tests/`, and a part of the name of a test in it. */
  readonly provokedBy: readonly (readonly [file: string, test: string])[];
  /** What no test here shows and why, and what the code does about it or what shows it instead. */
  readonly notProvoked?: { readonly what: string; readonly instead: string };
}

const STORAGE = 'app/faults/storage-faults.test.ts';
const PROCESS = 'app/faults/process-faults.test.ts';
const KILLED_EXCHANGE = 'app/faults/killed-exchange.test.ts';
const DISK = 'app/recorder-disk-faults.test.ts';
const OPENING = 'unit/archive/opening.test.ts';
const HELD = 'unit/recorder/held-archive.test.ts';
const THINNING = 'unit/renderer/thinning.test.ts';
const KILLED = 'app/window-killed.test.ts';
const GRAPHICS = 'app/window-graphics.test.ts';
const NOBODY_IN = 'app/window-lets-nobody-in.test.ts';

export const FAULT_ROWS: Readonly<Record<string, FaultRow>> = {
  D1: {
    fault: 'power cut right after a commit',
    provokedBy: [
      [OPENING, 'owned alone, and syncs every commit'],
      [OPENING, 'syncs every commit after it was opened again as well'],
    ],
    notProvoked: {
      what: 'a real cut of power: it would end the test, too',
      instead:
        '`npm run bench -- durability` and `sync-calls` show the calls that make a reading safe within 100 ms on a disk that syncs in time',
    },
  },
  D2: {
    fault: 'killed while writing; torn tail of the log',
    provokedBy: [
      ['app/recorder-killed.test.ts', 'loses at most one reading that it had read'],
      [STORAGE, 'D2: the recorder is killed and the tail of the log is torn'],
      ['unit/recorder/spool.test.ts', 'is not believed from the first record on that was cut off'],
      [KILLED_EXCHANGE, 'in mid merge: the archive is whole with what was taken by then'],
    ],
  },
  D3: {
    fault: 'disk full during a pull',
    provokedBy: [
      [DISK, 'is told loudly; recording goes on'],
      [HELD, 'is told as a full disk; the batches are kept'],
    ],
  },
  D4: {
    fault: 'disk full at opening, or at the next start',
    provokedBy: [
      [DISK, 'is told in a sentence and is no fault of the program'],
      [DISK, 'and a recorder that is killed then'],
    ],
  },
  D5: {
    fault: 'a compiled library takes the process down',
    provokedBy: [
      [STORAGE, 'an older Node gets a sentence'],
      [STORAGE, 'so does a real older Node'],
      [STORAGE, 'SIGSEGV in the middle of a pull'],
    ],
    notProvoked: {
      what: 'the whole suite under an older Node: its tools do not run there; and a real one where the machine has none',
      instead:
        'the recorder is started by an older Node that stands in the PATH, else by one that only says that it is; it ends with a sentence before the library is loaded',
    },
  },
  D6: {
    fault: 'half copies; a damaged file rotated over good backups',
    provokedBy: [
      ['unit/archive/half-copy.test.ts', 'is told when it is read and when it is recorded into'],
      ['unit/archive/keeping.test.ts', 'is a whole archive, also of what is still in the log'],
      [KILLED_EXCHANGE, 'in mid restore: the archive or the backup stands in that place, whole'],
      ['unit/archive/restore-backup.test.ts', 'D6: killed at any of its moves'],
      [
        'unit/archive/restore-backup.test.ts',
        'D6: killed between its renames where there are no second names',
      ],
      ['unit/recorder/told-of-archive.test.ts', 'D6: a start that takes back a restore'],
      [
        'unit/command-line/archive-exchange.test.ts',
        'are kept by age, put back only when asked, and never by a damaged file',
      ],
    ],
  },
  D7: {
    fault: 'damaged archive at start',
    provokedBy: [
      [OPENING, 'is refused when it is damaged, and can be set aside with its date'],
      [OPENING, 'is refused when it is no database'],
      ['app/window-damaged-archive.test.ts', 'is set aside only after it was asked for twice'],
    ],
  },
  D8: {
    fault: 'the log grows without end',
    provokedBy: [
      ['unit/archive/log-room.test.ts', 'is enough for a pull of any length'],
      ['unit/archive/log-room.test.ts', 'is taken in between two commits and never within one'],
      ['unit/archive/log-room.test.ts', 'stays when the log is taken into the main file'],
      [HELD, 'can take neither the write lock nor a query'],
      [HELD, 'holds up the commits, which is told'],
      [HELD, 'the log grows, its size is told'],
      ['unit/recorder/told-of-archive.test.ts', 'is told with its size'],
    ],
    notProvoked: {
      what: 'that the log is never taken in during a pull: it is, in pieces of `WAL_TAKEN_IN_BYTES` between two commits',
      instead:
        'the tests of D8 hold that none falls within a commit and that a pull of any length stays in the room of its log; left alone for a whole pull it grew until one commit waited for 150 ms',
    },
  },
  D9: {
    fault: 'every sync takes long',
    provokedBy: [
      [STORAGE, 'holds up neither the port nor the figures'],
      ['unit/recorder/committer.test.ts', 'makes commits late'],
    ],
  },
  D10: {
    fault: 'a second process writes',
    provokedBy: [
      [STORAGE, 'D10: two processes write'],
      [HELD, 'that holds BEGIN IMMEDIATE at a commit'],
      [DISK, 'on one archive: the second ends by itself'],
    ],
  },
  D11: {
    fault: 'archive on a network share',
    provokedBy: [
      [OPENING, 'is known by the kind of its file system'],
      [OPENING, 'is known by the source of its mount where a program serves it'],
      [OPENING, 'is known by its path on Windows'],
      [OPENING, 'is no place to record in, with an advice'],
    ],
    notProvoked: {
      what: 'a share that is mounted: no NFS, CIFS or 9P server is to be had on the machines of the tests',
      instead:
        'the look-up is handed in, and refusal and sentence are held; the numbers are tested by themselves',
    },
  },
  D12: {
    fault: 'another program holds the file so that a rename fails',
    provokedBy: [
      ['unit/archive/rename-when-free.test.ts', 'is made again when somebody holds the file for a moment'],
      ['unit/archive/rename-when-free.test.ts', 'is given up after a few tries'],
      ['unit/shell/settings.test.ts', 'keeps what it has in memory when it can not be written'],
    ],
  },
  D13: {
    fault: 'newer archive; migration cut short',
    provokedBy: [
      [OPENING, 'is refused when it was written by a newer version'],
      ['unit/archive/migrating.test.ts', 'is exactly as it was when a migration fails half-way'],
      [STORAGE, 'D13: the program is killed while it brings an archive to its form'],
    ],
  },
  D14: {
    fault: 'folder gone, read-only, or oddly named',
    provokedBy: [
      [OPENING, 'is refused when its folder is missing'],
      [OPENING, 'is refused when it is write-protected'],
      [STORAGE, 'D14: a folder with an odd name'],
    ],
  },
  D15: {
    fault: 'second copy of the program; stale lock',
    provokedBy: [
      ['app/window-leaving.test.ts', 'a second start brings the first window to the front'],
      [KILLED, 'the main process is killed: the recorder goes on, and a new start shows the running pull'],
    ],
  },

  C1: {
    fault: 'extension goes backwards',
    provokedBy: [
      [THINNING, 'never sorts: of many readings to a pixel'],
      [THINNING, 'ends at the last reading, whatever came before'],
    ],
  },
  C2: {
    fault: 'nothing under the pointer',
    provokedBy: [[THINNING, 'finds the reading nearest to the pointer on either branch of a loop']],
  },
  C3: {
    fault: 'redraw grows with the pull',
    provokedBy: [
      [THINNING, 'makes of a million readings with noise in both directions a few thousand corners'],
      ['unit/renderer/frame-clock.test.ts', 'draws at most 20 times a second'],
    ],
    notProvoked: {
      what: 'two million readings, and how late a press is taken up: nothing in `npm test` is timed, and a million are thinned there',
      instead:
        '`npm run bench -- window-flood --long` has six million live in the window and times presses meanwhile; `window-ten-minutes` and `redraw` time presses and drawing of a pull',
    },
  },
  C4: {
    fault: 'gap drawn as a line',
    provokedBy: [
      [THINNING, 'lifts the pen before the first reading after it'],
      [THINNING, 'is left where a reading has no value, and never bridged'],
      ['unit/renderer/stroke-trace.test.ts', 'has no line over a gap before corner'],
      [KILLED, 'names the gap, and nothing is drawn over it'],
    ],
  },
  C5: {
    fault: 'memory grows over days',
    provokedBy: [
      ['app/window-plots-last.test.ts', 'keeps nothing of a hundred pulls that were opened and closed'],
    ],
    notProvoked: {
      what: 'a thousand pulls in a row: too long for `npm test`, which opens and closes a hundred',
      instead: '`npm run bench -- many-pulls` makes them',
    },
  },
  C6: {
    fault: 'blurred after moving to another screen',
    provokedBy: [['app/window-plots-last.test.ts', 'anew for a screen with other pixels']],
  },
  C7: {
    fault: 'curve unreachable without mouse or sight',
    provokedBy: [
      [
        'app/window-looked-over.test.ts',
        'finds nothing at fault in any view, and comes by every component of the page',
      ],
    ],
  },
  C8: {
    fault: 'the axis hides what matters',
    provokedBy: [
      ['unit/renderer/axes.test.ts', 'is fixed before the pull from what is planned'],
      ['unit/renderer/axes.test.ts', 'grows outward only'],
      ['unit/renderer/curve-columns.test.ts', 'take a garbled reading neither for the peak'],
    ],
  },

  P1: {
    fault: 'page dies or hangs',
    provokedBy: [
      [KILLED, 'page is killed: it comes back by itself'],
      [KILLED, 'page hangs in an endless loop'],
    ],
  },
  P2: {
    fault: 'graphics process fails',
    provokedBy: [
      [GRAPHICS, 'P2: the graphics process crashes three times in a pull'],
      [GRAPHICS, 'P2: a start with a way of drawing that is not there'],
      ['app/window-place-and-looks.test.ts', 'draws without the graphics card when told to'],
    ],
  },
  P3: {
    fault: 'main blocked; out of memory in the analysis',
    provokedBy: [
      ['unit/recorder/run-evaluation.test.ts', 'P3: an evaluation that is out of memory'],
      [PROCESS, 'a client process that is stopped for seconds (SIGSTOP) catches up'],
      [KILLED, 'the main process is stopped for seconds, the page while'],
      ['app/window-leaving.test.ts', 'whatever opens meanwhile keeps nothing from being kept'],
    ],
  },
  P4: {
    fault: 'exit misreported',
    provokedBy: [
      ['unit/shell/recorder-supervisor.test.ts', 'ends one that hangs, by the number it gave'],
      ['unit/shell/recorder-supervisor.test.ts', 'starts it again when it has died'],
      [KILLED, 'is killed, crashes and ends with exit code 0'],
      [STORAGE, 'SIGSEGV in the middle of a pull'],
    ],
  },
  P5: {
    fault: 'flood of messages to a slow window',
    provokedBy: [
      [PROCESS, 'costs the recorder neither a reading nor memory without bound'],
      ['unit/shell/page-outbox.test.ts', 'are bounded, whatever comes'],
      [KILLED, 'the main process is stopped for seconds, the page while'],
    ],
    notProvoked: {
      what: 'a page that is frozen for sixty seconds: too long for `npm test`, where it is seconds',
      instead: '`npm run bench -- window-frozen` stops it for sixty seconds of 10 000 lines a second',
    },
  },
  P6: {
    fault: 'computer sleeps, timers slow down',
    provokedBy: [
      ['app/window-leaving.test.ts', 'the screen is kept awake'],
      [GRAPHICS, 'P6: the window is put out of sight while lines come'],
    ],
    notProvoked: {
      what: 'real sleep: it would stop the tests, too',
      instead:
        'S2 and `npm run bench -- compressed-day` step the clocks as sleep does; the recorder has no window whose timers are slowed',
    },
  },
  P7: {
    fault: 'shutdown or sign-out',
    provokedBy: [
      [KILLED, 'SIGTERM while a pull is recorded ends the window at once'],
      [KILLED, 'SIGTERM, SIGHUP and two seconds later SIGKILL to all of it'],
      [PROCESS, 'SIGHUP ends nothing; SIGTERM keeps all that came'],
      [PROCESS, 'the whole group of processes is killed'],
      [KILLED, 'page, main process and everything at once are killed by turns'],
    ],
  },
  P8: {
    fault: 'close, quit or reload pressed while recording',
    provokedBy: [
      ['app/window-leaving.test.ts', 'closing asks, and the default keeps recording'],
      [NOBODY_IN, 'are absent: nothing in the menu'],
    ],
  },
  P9: {
    fault: 'stray key stops the pull',
    provokedBy: [['app/window-leaving.test.ts', 'Space and Enter stop nothing']],
  },
  P10: {
    fault: 'window opens off-screen',
    provokedBy: [
      ['unit/shell/window-place.test.ts', 'comes back to the main display when its own has gone'],
      ['app/window-place-and-looks.test.ts', 'opens on a display that exists'],
    ],
  },
  P11: {
    fault: 'works in development, not when packaged',
    provokedBy: [['unit/setup/packaging.test.ts', 'holds every library with a compiled part']],
    notProvoked: {
      what: 'the packed program itself: packing takes longer than `npm test` may, and wants the official Electron',
      instead:
        '`npm run package`, also `-- --stand-in`, records from a port with the packed program before it keeps anything',
    },
  },
  P12: {
    fault: 'page content turned against the program',
    provokedBy: [
      [NOBODY_IN, 'is never made from text'],
      [NOBODY_IN, 'opens no window'],
      [NOBODY_IN, 'are refused from another page'],
      [NOBODY_IN, 'reaches nobody on this computer either'],
      [NOBODY_IN, 'stays text in every text box of specimen and readout'],
      [NOBODY_IN, 'stays text in set, fracture, laboratory, people, instruments, archive and reasons'],
      [NOBODY_IN, 'do not come from a frame inside the page'],
      ['unit/shell/page-relay.test.ts', 'is refused, and nothing is done'],
    ],
    notProvoked: {
      what: 'a frame inside the page that calls the bridge: the content policy lets none load anything',
      instead:
        'every way to make one is tried, and none holds a page or a bridge; that main would refuse its messages is held with made-up ones',
    },
  },
  P13: {
    fault: 'PDF blank, cut or in another font',
    provokedBy: [
      ['app/certificate-pdf.test.ts', 'fonts embedded, curve as vectors up to where it was broken'],
      ['app/certificate-pdf.test.ts', 'names of 300 characters, with markup or turned writing'],
    ],
    notProvoked: {
      what: 'sixty pages: they take half a minute to print',
      instead:
        'by hand on 30 November 2026: a table of 1 500 pulls on 53 pages, read back by Poppler: every pull, each page with its number',
    },
  },

  X1: {
    fault: 'spreadsheet in another locale',
    provokedBy: [
      [
        'unit/exchange/results-table.test.ts',
        'in a spreadsheet form of another language has the other decimal sign',
      ],
      ['unit/exchange/split-export.test.ts', 'a pull reads back with the very values of the archive'],
      ['unit/exchange/pull-csv.test.ts', 'refuses a form whose decimal sign is its delimiter'],
    ],
  },
  X2: {
    fault: 'text cell runs as a formula, or its protection ruins numbers',
    provokedBy: [
      ['unit/exchange/pull-csv.test.ts', 'never becomes a cell that runs'],
      ['unit/exchange/results-table.test.ts', 'as a workbook keeps numbers numbers'],
    ],
  },
  X3: {
    fault: 'export cut short',
    provokedBy: [
      [STORAGE, 'X3: the disk is full while a pull is exported'],
      [STORAGE, 'and by then part of it was written'],
      [KILLED_EXCHANGE, 'in mid export: no file is there that is not whole'],
      ['unit/exchange/pull-csv.test.ts', 'gets the readings in parts, none lost'],
    ],
    notProvoked: {
      what: '1.2 million readings written out: making and writing them takes two minutes; how they are parted is tested',
      instead:
        'by hand on 30 November 2026: two files, read back row by row, 1 200 000 readings with the values that were sent',
    },
  },
};
