/** The whole window: the rail, what must be known now, and the present station over the full width. */
import type { FunctionComponent } from 'preact';
import { useErrorBoundary, useLayoutEffect, useRef } from 'preact/hooks';
import { ArchivePlace } from './archive/archive-place.tsx';
import { Button } from './design/button.tsx';
import { FaultBlock } from './design/field.tsx';
import { Said } from './design/said.tsx';
import { DoingField } from './doing/doing-field.tsx';
import { Guide } from './guide/guide.tsx';
import { CalibrationAsked } from './instruments/calibration-asked.tsx';
import { InstrumentsPlace } from './instruments/instruments-place.tsx';
import { KeysSheet } from './keys/keys-sheet.tsx';
import { PullExportSheet } from './exchange/pull-export-sheet.tsx';
import { MenuSheets } from './keys/menu-sheets.tsx';
import { Notices } from './notices.tsx';
import { PeoplePlace } from './people/people-place.tsx';
import { SelfCheckPlace } from './self-check/self-check-place.tsx';
import { CertificateStation } from './stations/certificate/certificate-station.tsx';
import { FractureStation } from './stations/fracture/fracture-station.tsx';
import { PullStation } from './stations/pull/pull-station.tsx';
import { Rail } from './stations/rail.tsx';
import { ReadoutStation } from './stations/readout/readout-station.tsx';
import { ResultStation } from './stations/result/result-station.tsx';
import { SetStation } from './stations/set/set-station.tsx';
import { SpecimenStation } from './stations/specimen/specimen-station.tsx';
import { type Place, place } from './store/place.ts';
import { TourStrip } from './tour/tour-strip.tsx';
import { words } from './words/words.ts';
import './app.css';

const PLACES: Readonly<Record<Place, FunctionComponent>> = {
  set: SetStation,
  specimen: SpecimenStation,
  readout: ReadoutStation,
  pull: PullStation,
  fracture: FractureStation,
  result: ResultStation,
  certificate: CertificateStation,
  archive: ArchivePlace,
  instruments: InstrumentsPlace,
  'self-check': SelfCheckPlace,
  people: PeoplePlace,
};

/** A view that fails says so and can be shown again; the rail, and above all the recording, are not touched by it. */
function Guarded({ view: View }: { readonly view: FunctionComponent }) {
  const boundary = useErrorBoundary();
  const error: unknown = boundary[0];
  const again = boundary[1];
  if (error === undefined || error === null) return <View />;
  const text = words.value.faults;
  return (
    <div class="station">
      <FaultBlock
        fault={{
          code: 'view-failed',
          sentence: text.viewFailed(error instanceof Error ? error.message : 'no reason given'),
        }}
      />
      <div class="actions">
        <Button onPress={again}>{text.showAgain}</Button>
      </div>
    </div>
  );
}

export function App() {
  const Present = PLACES[place.value];
  const sheet = useRef<HTMLElement>(null);
  const isFirst = useRef(true);
  useLayoutEffect(() => {
    const begin = (): void => {
      // A station begins at its top, however far down the one before was read.
      sheet.current?.scrollTo(0, 0);
      // The button that led here has gone with its station: the next Tab goes into the new one, not to the window's top.
      if (document.activeElement === null || document.activeElement === document.body) sheet.current?.focus();
    };
    // The first one with its own frame: either has the whole page laid out, which is not finished yet. Any other with its
    // drawing, not a frame later: the next key may come before that.
    if (isFirst.current) requestAnimationFrame(begin);
    else begin();
    isFirst.current = false;
  }, [place.value]);
  return (
    <div class="app">
      <Rail />
      <div>
        <Notices />
        <TourStrip />
      </div>
      <main
        ref={sheet}
        tabIndex={-1}
        class="sheet"
        aria-label={words.value.stations[place.value]}
        data-place={place.value}
      >
        <h1 class="heard">{words.value.stations[place.value]}</h1>
        <Guarded key={place.value} view={Present} />
      </main>
      <Said />
      <KeysSheet />
      <DoingField />
      <Guide />
      <MenuSheets />
      <PullExportSheet />
      <CalibrationAsked />
    </div>
  );
}
