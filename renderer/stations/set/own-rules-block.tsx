/** The folder of own rule packs: which files are used, which are not and why, and another folder. */
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { errand } from '../../store/errand.ts';
import { readRulesFolder, rulesFolder } from '../../store/own-rules.ts';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';

const choosing = errand();

export function OwnRulesBlock() {
  const text = words.value.ownRules;
  const now = rulesFolder.value;
  if (now === null) return null;
  const choose = async (which: 'ask' | 'usual') => {
    const chosen = await choosing.run(() => request('window.choose-rules-folder', { which }));
    if (chosen?.changed === true) await readRulesFolder();
  };
  return (
    <details class="own-rules" open={now.refused.length > 0 || now.fault !== null}>
      <summary>{text.title(String(now.packs.length), String(now.refused.length))}</summary>
      <p class="pencil small">
        {text.folder} <bdi>{now.folder}</bdi>
      </p>
      {now.fault === null ? null : <p class="field-fault">{now.fault}</p>}
      {now.packs.length + now.refused.length === 0 ? <p class="pencil small">{text.none}</p> : null}
      <ul class="own-rules-list">
        {now.packs.map(({ origin, pack }) => (
          <li key={origin.file}>
            <bdi>{origin.file}</bdi>: <bdi>{pack.name}</bdi>, <bdi>{pack.edition}</bdi>
          </li>
        ))}
        {now.refused.map(({ file, sentences }) => (
          <li key={file}>
            <strong>
              <bdi>{file}</bdi>: {text.notUsed}
            </strong>
            <ul>
              {sentences.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
      <FaultBlock fault={choosing.fault.value} />
      <div class="actions">
        <Button kind="compact" id="read-rules-again" onPress={() => void readRulesFolder()}>
          {text.again}
        </Button>
        <Button kind="compact" onPress={() => void choose('ask')}>
          {text.another}
        </Button>
        <Button kind="compact" onPress={() => void choose('usual')}>
          {text.usual}
        </Button>
      </div>
    </details>
  );
}
