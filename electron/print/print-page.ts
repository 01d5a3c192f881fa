/** Prints one HTML page to PDF in a hidden window in which nothing runs and nothing is loaded from elsewhere. */
import { BrowserWindow } from 'electron';
import { pathToFileURL } from 'node:url';
import type { Sheet } from '../../core/certificate/paper/paper-style.ts';
import { unlessStopped } from './stoppable-work.ts';
import { shrinkPictures } from './shrink-pictures.ts';

/** Sixty pages with photos take some seconds. */
const PRINT_MS_MAX = 120_000;
const MM_PER_INCH = 25.4;

export interface PrintJob extends Sheet {
  /** An HTML file that holds all it needs, made for this job: its pictures are made smaller in it. */
  readonly page: string;
  /** HTML of head and foot; `pageNumber` and `totalPages` are classes that the printing fills in. */
  readonly head: string;
  readonly foot: string;
}

/** What is told of a printing: which of its pictures is made smaller, then that all pages are being printed. */
export type OnPrintStep = (now: {
  readonly step: 'shrinking' | 'printing';
  readonly done: number;
  readonly of: number;
}) => void;

export interface PrintWatch {
  readonly signal?: AbortSignal | undefined;
  readonly onStep?: OnPrintStep | undefined;
}

/**
 * The application must be ready. Rejects when the page can't be loaded, when printing takes longer than PRINT_MS_MAX, and
 * with the reason of the signal when that is raised. What the engine prints by then it prints to its end, unseen and for
 * nobody: Electron queues its printings, and one that is broken off makes every later one fail until the program is
 * started again.
 */
export async function printPage(job: PrintJob, watch: PrintWatch = {}): Promise<Buffer> {
  const window = new BrowserWindow({
    show: false,
    webPreferences: {
      javascript: false,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      // Nothing of it may be kept between two certificates.
      partition: `print-${String(Date.now())}`,
    },
  });
  let limit: NodeJS.Timeout | undefined;
  const engine = { isPrinting: false, isLate: false };
  const late = new Promise<never>((_, refuse) => {
    limit = setTimeout(() => {
      engine.isLate = true;
      refuse(new Error(`printing took longer than ${String(PRINT_MS_MAX)} ms`));
    }, PRINT_MS_MAX);
  });
  const end = (): void => {
    clearTimeout(limit);
    if (!window.isDestroyed()) window.destroy();
  };
  const ended = Promise.race([printed(window, job, engine, watch), late]);
  try {
    return await unlessStopped(watch.signal, ended);
  } finally {
    if (engine.isPrinting && !engine.isLate) void ended.then(end, end);
    else end();
  }
}

async function printed(
  window: BrowserWindow,
  job: PrintJob,
  engine: { isPrinting: boolean },
  { signal, onStep }: PrintWatch,
): Promise<Buffer> {
  await shrinkPictures(job.page, {
    signal,
    onPicture: (done, of) => onStep?.({ step: 'shrinking', done, of }),
  });
  onStep?.({ step: 'printing', done: 0, of: 0 });
  await window.loadURL(pathToFileURL(job.page).href);
  signal?.throwIfAborted();
  engine.isPrinting = true;
  const inch = (mm: number) => mm / MM_PER_INCH;
  const { top, right, bottom, left } = job.marginMm;
  const bytes = await window.webContents.printToPDF({
    pageSize: { width: inch(job.widthMm), height: inch(job.heightMm) },
    margins: { top: inch(top), right: inch(right), bottom: inch(bottom), left: inch(left) },
    printBackground: true,
    displayHeaderFooter: true,
    headerTemplate: job.head,
    footerTemplate: job.foot,
    generateTaggedPDF: true,
    generateDocumentOutline: true,
  });
  engine.isPrinting = false;
  return bytes;
}
