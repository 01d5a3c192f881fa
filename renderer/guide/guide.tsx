/** The guide: from the calliper to the certificate and back from a backup, each with a picture of the real window. */
import { useRef } from 'preact/hooks';
import { SheetDialog } from '../keys/sheet-dialog.tsx';
import { Button } from '../design/button.tsx';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { guideShown } from './guide-shown.ts';
import certify from './pictures/certify.png';
import certifyEs from './pictures/certify-es.png';
import connect from './pictures/connect.png';
import connectEs from './pictures/connect-es.png';
import judge from './pictures/judge.png';
import judgeEs from './pictures/judge-es.png';
import measure from './pictures/measure.png';
import measureEs from './pictures/measure-es.png';
import pull from './pictures/pull.png';
import pullEs from './pictures/pull-es.png';
import restore from './pictures/restore.png';
import restoreEs from './pictures/restore-es.png';
import './guide.css';

/** Made by `npm run screenshots`. */
const PICTURES = {
  measure: { en: measure, es: measureEs },
  connect: { en: connect, es: connectEs },
  pull: { en: pull, es: pullEs },
  judge: { en: judge, es: judgeEs },
  certify: { en: certify, es: certifyEs },
  restore: { en: restore, es: restoreEs },
} as const;
type Chapter = keyof typeof PICTURES;
const CHAPTERS = Object.keys(PICTURES) as Chapter[];

export function Guide() {
  const top = useRef<HTMLDivElement>(null);
  if (!guideShown.value) return null;
  const text = words.value.guide;
  const lookAt = (chapter: Chapter): void => {
    const section = top.current?.querySelector<HTMLElement>(`[data-chapter="${chapter}"]`);
    section?.scrollIntoView();
    section?.focus();
  };
  return (
    <SheetDialog title={text.title} onClose={() => (guideShown.value = false)}>
      <div ref={top} class="guide">
        <nav aria-label={text.title}>
          {CHAPTERS.map((chapter) => (
            <Button key={chapter} kind="compact" onPress={() => lookAt(chapter)}>
              {text.chapters[chapter].title}
            </Button>
          ))}
        </nav>
        {CHAPTERS.map((chapter) => (
          <section
            key={chapter}
            data-chapter={chapter}
            tabIndex={-1}
            aria-label={text.chapters[chapter].title}
          >
            <h3>{text.chapters[chapter].title}</h3>
            <ol>
              {text.chapters[chapter].steps.map((step) => (
                <li key={step}>{step}</li>
              ))}
            </ol>
            <img
              src={PICTURES[chapter][language.value]}
              alt={text.chapters[chapter].picture}
              loading="lazy"
            />
          </section>
        ))}
        <p>{words.value.cautions.notSafety}</p>
        <p>{words.value.cautions.govern}</p>
      </div>
    </SheetDialog>
  );
}
