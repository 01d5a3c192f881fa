/** One pull of the archive: result, curve, and everything that stands on its record. */
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import { useMemo } from 'preact/hooks';
import { useEffect } from 'preact/hooks';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { openPullExport } from '../exchange/pull-export.ts';
import { dayOfPull } from '../exchange/day-of-pull.ts';
import { fileOfPull } from '../store/elsewhere.ts';
import { openPull } from '../store/kept-pull.ts';
import { archivePullId } from '../store/place.ts';
import { language } from '../store/view-settings.ts';
import { CertificateOfPull } from '../stations/certificate/certificate-of-pull.tsx';
import { EvaluationBlock } from '../stations/evaluation/evaluation-block.tsx';
import { FractureNote } from '../stations/fracture/fracture-station.tsx';
import { KeptPlots } from '../stations/result/kept-plots.tsx';
import { ResultList } from '../stations/result/result-list.tsx';
import { BoardButton } from '../board/board.tsx';
import { fixed, momentText } from '../numbers/format.ts';
import { StateDay } from '../trail/state-day.tsx';
import { VoidPull } from '../trail/void-pull.tsx';
import { words } from '../words/words.ts';
import { ArchiveCare } from './archive-care.tsx';
import { RecordFacts } from './record-facts.tsx';
import { VerdictOfPull } from './verdict-of-pull.tsx';

/** Of an imported pull both are told apart: the day that somebody stated, the moment that the program noted. */
function whenOf(kept: KeptPull): string {
  const stated = dayOfPull(kept);
  const moment = momentText(kept.startedWallMs);
  return stated === null ? moment : `${stated} · ${words.value.exchange.importedAt(moment)}`;
}

export function ArchivedPull({ pullId }: { readonly pullId: number }) {
  const text = words.value.archive;
  const opened = useMemo(() => openPull(pullId), [pullId]);
  useEffect(() => () => opened.close(), [opened]);
  // Of another archive it is looked at, and nothing is done with it.
  const file = fileOfPull(pullId);
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
              {whenOf(kept)} · {text.readingCount(fixed(kept.readingCount, 0, language.value))}
            </span>
            {file === null ? (
              <>
                <VerdictOfPull opened={opened} />
                <Button kind="compact" onPress={() => void openPullExport(pullId)}>
                  {text.export}
                </Button>
                {kept.state === 'ended' ? <CertificateOfPull id="pull-certificate" pullId={pullId} /> : null}
                <BoardButton opened={opened} />
              </>
            ) : (
              <strong id="pull-elsewhere">{words.value.exchange.readOnlyIn(file.name)}</strong>
            )}
          </>
        )}
      </div>
      <FaultBlock fault={opened.fault.value} />
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
              {file === null ? <EvaluationBlock opened={opened} /> : null}
            </>
          )}
        </div>
      </div>
      {kept === null ? null : (
        <>
          {file === null ? (
            <>
              <VoidPull opened={opened} kept={kept} />
              {kept.source.kind === 'imported' ? <StateDay opened={opened} kept={kept} /> : null}
              <FractureNote opened={opened} kept={kept} />
            </>
          ) : null}
          <RecordFacts kept={kept} />
          {file === null ? <ArchiveCare pullId={pullId} /> : null}
        </>
      )}
    </div>
  );
}
