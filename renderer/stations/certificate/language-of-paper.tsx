/** The language of what is put on paper, each under its own name. */
import { PAPER_LANGUAGES, type PaperLanguage } from '../../../core/words/paper-words.ts';
import { Choice } from '../../design/field.tsx';
import { words } from '../../words/words.ts';

export function LanguageOfPaper({
  value,
  onChoose,
}: {
  readonly value: PaperLanguage;
  readonly onChoose: (chosen: PaperLanguage) => void;
}) {
  const text = words.value.set.certificate;
  return (
    <Choice
      name={text.paperLanguage}
      showName
      options={PAPER_LANGUAGES.map((language) => ({ value: language, label: text.paperLanguages[language] }))}
      value={value}
      onChoose={onChoose}
    />
  );
}
