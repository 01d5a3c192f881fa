/** An evaluation that can't be made ends its own thread, and nothing else. */
import { Worker } from 'node:worker_threads';
import { expect, it, onTestFinished, vi } from 'vitest';
import { EVALUATION_HEAP_MIB_MAX } from '../../../core/limits.ts';
import type { EvaluationTask } from '../../../electron/recorder/evaluation-thread.ts';
import { runEvaluation } from '../../../electron/recorder/run-evaluation.ts';
import { BY_HAND, TEST_PORT, begunRecorder } from './begun-recorder.ts';
import { loadProfile } from './played-readout.ts';

/** Too little for the evaluation's own code; with half of that the engine ends the whole process before it begins. */
const HEAP_MIB_TOO_LITTLE = 6;

it('ends the thread where the task can not be handed to it: it would hold the process open until the time limit', async () => {
  const ended = vi.spyOn(Worker.prototype, 'terminate');
  onTestFinished(() => ended.mockRestore());
  const task = { curve: () => 0 } as unknown as EvaluationTask;
  await expect(runEvaluation(task)).rejects.toThrow(/could not be cloned/);
  expect(ended).toHaveBeenCalled();
});

it('P3: an evaluation that is out of memory ends alone: it is said what to do, the record goes on whole, the next evaluation works', async () => {
  let heapMib = HEAP_MIB_TOO_LITTLE;
  const { ask, answered, send, specimenId } = await begunRecorder({
    told: { evaluationHeapMib: () => heapMib },
  });
  await ask('readout.open', { source: TEST_PORT, profile: loadProfile() });
  const record = async (): Promise<number> => {
    const { pullId } = await ask('pull.ready', { specimenId, ...BY_HAND });
    // The first may be the rest of a line.
    send('0.0');
    return pullId;
  };
  const earlier = await record();
  send('1.0', '2.0', '3.0');
  await ask('pull.close', {});

  const pullId = await record();
  send('10.0');
  const evaluating = answered('pull.evaluate', { pullId: earlier });
  let sent = '0.0\r\n10.0\r\n';
  // A line at every turn, from before the thread is started until the next one has answered: on a busy machine that takes longer
  // than a readout may be silent.
  const sending = setInterval(() => {
    send('11.0');
    sent += '11.0\r\n';
  }, 1);
  onTestFinished(() => clearInterval(sending));
  const answer = await evaluating;
  expect(answer).toMatchObject({
    ok: false,
    fault: {
      code: 'evaluation-out-of-memory',
      sentence: expect.stringMatching(
        /more memory than it may take \(6 MiB\).*recording goes on. Evaluate the pull again;/,
      ) as string,
    },
  });
  heapMib = EVALUATION_HEAP_MIB_MAX;
  expect((await ask('pull.evaluate', { pullId: earlier })).methodVersion).not.toBe('');
  clearInterval(sending);
  send('12.0');
  sent += '12.0\r\n';
  await ask('pull.close', {});
  const { bytes } = await ask('pull.raw', { pullId, fromChunk: 0, count: 100_000 });
  expect(Buffer.from(bytes).toString('latin1')).toBe(sent);
  const { columns } = await ask('pull.readings', { pullId, fromSeq: 0, count: 100_000 });
  const loads = sent.trim().split('\r\n').slice(1).map(Number);
  expect([...(columns.channels[0]?.value ?? [])]).toEqual(loads);
  expect((await ask('pull.get', { pullId })).gaps).toEqual([]);
  expect((await ask('archive.check', {})).lines.filter(({ ok }) => !ok)).toEqual([]);
});
