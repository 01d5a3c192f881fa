/** The folder of own rule packs: which files are used, which are not and why, another folder, and how one is begun. */
import { begunFrom } from '../../../core/acceptance/begun-from.ts';
import type { RulePack } from '../../../core/acceptance/read-rule-pack.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { readRulesFolder, rulesFolder } from '../../store/own-rules.ts';
import { request } from '../../store/session-store.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';

const choosing = errand();

/** One way to write a folder; Windows tells no small letters from large ones. */
function plainFolder(path: string): string {
  const plain = path.replaceAll('\\', '/').replace(/\/+$/, '');
  return /^[a-z]:/i.test(plain) ? plain.toLowerCase() : plain;
}
/** In the folder itself: files of folders within it are not read. */
const isIn = (folder: string, path: string): boolean =>
  plainFolder(path.replace(/[^\\/]*$/, '')) === plainFolder(folder);

/** @param from the rules that are chosen: what one's own are begun from; absent where none are */
export function OwnRulesBlock({ from }: { readonly from: RulePack | undefined }) {
  const text = words.value.ownRules;
  const now = rulesFolder.value;
  if (now === null) return null;
  const choose = async (which: 'ask' | 'usual') => {
    const chosen = await choosing.run(() => request('window.choose-rules-folder', { which }));
    if (chosen?.changed === true) await readRulesFolder();
  };
  const begin = async (pack: RulePack): Promise<void> => {
    const own = begunFrom(pack);
    const saved = await choosing.run(() =>
      request('window.save-sheet', { kind: 'rules', suggestedName: own.id, pack: own }),
    );
    if (saved === null || saved.path === null) return;
    await readRulesFolder();
    const folder = rulesFolder.value?.folder ?? now.folder;
    say(isIn(folder, saved.path) ? text.begun(saved.path) : text.begunElsewhere(saved.path, folder));
  };
  const readAgain = async (): Promise<void> => {
    const read = await choosing.run(() => request('rules.folder', {}));
    if (read === null) return;
    rulesFolder.value = read;
    say(
      read.fault === null
        ? text.read(read.folder, String(read.packs.length), String(read.refused.length))
        : told(read.fault),
    );
  };
  return (
    <details class="own-rules" open={now.refused.length > 0 || now.fault !== null}>
      <summary>{text.title(String(now.packs.length), String(now.refused.length))}</summary>
      <p class="pencil small">
        {text.folder} <bdi>{now.folder}</bdi>
      </p>
      {now.fault === null ? null : <p class="field-fault">{told(now.fault)}</p>}
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
        {from === undefined ? null : (
          <Button kind="compact" id="begin-own-rules" onPress={() => void begin(from)}>
            {text.begin}
          </Button>
        )}
        <Button kind="compact" id="read-rules-again" onPress={() => void readAgain()}>
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
