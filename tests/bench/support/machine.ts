/** On what a measurement was made. */
import { cpus, loadavg, release, totalmem, type } from 'node:os';

export function machineLine(): string {
  const all = cpus();
  const model = all[0]?.model.trim() ?? 'unknown processor';
  const memory = Math.round(totalmem() / 2 ** 30);
  const day = new Date().toISOString().slice(0, 10);
  return `${day}, ${all.length} × ${model}, ${memory} GiB, ${type()} ${release()}, Node ${process.version}, load ${(loadavg()[0] ?? 0).toFixed(1)}`;
}
