/** One pull of the archive: result, curve, and everything that stands on its record. */
import { useMemo } from 'preact/hooks';
import { useEffect } from 'preact/hooks';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { errand } from '../store/errand.ts';
import { openPull } from '../store/kept-pull.ts';
import { archivePullId } from '../store/place.ts';
import { request } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { CertificateOfPull } from '../stations/certificate/certificate-of-pull.tsx';
import { EvaluationBlock } from '../stations/evaluation/evaluation-block.tsx';
import { FractureNote } from '../stations/fracture/fracture-station.tsx';
import { KeptPlots } from '../stations/result/kept-plots.tsx';
import { ResultList } from '../stations/result/result-list.tsx';
import { BoardButton } from '../board/board.tsx';
import { fixed, momentText } from '../numbers/format.ts';
import { VoidPull } from '../trail/void-pull.tsx';
import { words } from '../words/words.ts';
import { ArchiveCare } from './archive-care.tsx';
import { RecordFacts } from './record-facts.tsx';
import { VerdictOfPull } from './verdict-of-pull.tsx';

const exporting = errand();

/** Asks where, then writes the pull: as CSV, or in the form that the end of the chosen name says. */
export async function exportPull(pullId: number, name: string): Promise<void> {
  const safe = name.replace(/[^\p{L}\p{N}._-]+/gu, '-').slice(0, 60);
  const place = await exporting.run(() =>
    request('window.choose-save-path', { kind: 'curve', suggestedName: `${safe}.csv` }),
  );
  const to = place?.path ?? null;
  if (to === null) return;
  const done = await exporting.run(() => request('archive.export', { pullId, to }));
  if (done !== null)
    say(words.value.archive.exported(done.path, fixed(done.readingCount, 0, language.value)));
}

export function ArchivedPull({ pullId }: { readonly pullId: number }) {
  const text = words.value.archive;
  const opened = useMemo(() => openPull(pullId), [pullId]);
  useEffect(() => () => opened.close(), [opened]);
  const kept = opened.kept.value;
  const evaluation = opened.evaluation.value;
  return (
    <div class="station">
      <div class="opened-head">
        <Button kind="compact" onPress={() => (archivePullId.value = null)}>
          {text.back}
        </Button>
        {kept === null ? null : (
          <>
            <h2>{kept.specimenName}</h2>
            <span class="pencil">
              {momentText(kept.startedWallMs)} ·{' '}
              {text.readingCount(fixed(kept.readingCount, 0, language.value))}
            </span>
            <VerdictOfPull opened={opened} />
            <Button kind="compact" onPress={() => void exportPull(pullId, kept.specimenName)}>
              {text.export}
            </Button>
            {kept.state === 'ended' ? <CertificateOfPull id="pull-certificate" pullId={pullId} /> : null}
            <BoardButton opened={opened} />
          </>
        )}
      </div>
      <FaultBlock fault={opened.fault.value ?? exporting.fault.value} />
      <div class="split" style={{ padding: 0 }}>
        <KeptPlots opened={opened} />
        <div class="block">
          {evaluation === null ? (
            opened.fault.value === null ? (
              <p class="empty">{words.value.result.workingOut}</p>
            ) : null
          ) : (
            <>
              <ResultList evaluation={evaluation} />
              <EvaluationBlock opened={opened} />
            </>
          )}
        </div>
      </div>
      {kept === null ? null : (
        <>
          <VoidPull opened={opened} kept={kept} />
          <FractureNote opened={opened} kept={kept} />
          <RecordFacts kept={kept} />
          <ArchiveCare pullId={pullId} />
        </>
      )}
    </div>
  );
}
