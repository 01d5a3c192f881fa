/** The flags by which an evaluation is changed, and what they say of themselves: for `evaluate` and `archive`. */
import { MATERIAL_KINDS } from '../../core/results/elongation-conversion.ts';
import { EXTENSOMETER_CLASSES, FORCE_CLASSES } from '../../core/results/force-uncertainty.ts';
import { ARC_FORMS } from '../../core/results/pipe-strip-area.ts';
import { ROUNDING_RULES } from '../../core/results/rounding.ts';
import { SECTION_RULES } from '../../core/results/section-rule.ts';

export const EVALUATION_FLAGS = {
  options: { type: 'string' },
  offset: { type: 'string', multiple: true },
  'extension-under-load': { type: 'string', multiple: true },
  'slope-from': { type: 'string' },
  'strain-from': { type: 'string' },
  'fracture-index': { type: 'string' },
  toe: { type: 'boolean' },
  'no-toe': { type: 'boolean' },
  'zero-load': { type: 'string' },
  'zero-extension': { type: 'string' },
  'zero-travel': { type: 'string' },
  calibration: { type: 'string', multiple: true },
  compliance: { type: 'string' },
  section: { type: 'string' },
  'section-form': { type: 'string' },
  rounding: { type: 'string' },
  'final-section': { type: 'string' },
  'required-elongation': { type: 'string' },
  'convert-elongation': { type: 'string' },
  'material-kind': { type: 'string' },
  'readout-class': { type: 'string' },
  'readout-uncertainty': { type: 'string' },
  'readout-resolution': { type: 'string' },
  'extensometer-class': { type: 'string' },
  'hardening-range': { type: 'string' },
  'line-format': { type: 'string' },
} as const;

export const EVALUATION_USAGE = `  --options FILE.json       all of these in one file, in the form that --json shows under "options"; flags count above it
  --offset PERCENT[,…]      offsets of proof strengths (default 0.2)
  --extension-under-load PERCENT[,…]
                            total extensions of strengths under load (default 0.5)
  --slope-from WHERE        where the elastic slope is taken: LOW..HIGH in MPa or with a unit ("20..40 ksi"), loop
                            (an unloading loop), loading (where the program finds it, the default)
  --strain-from WORD        extensometer (default) or travel; travel labels every strain as crosshead travel
  --fracture-index N        last reading before the break, counted from 0, where a person has marked it
  --toe | --no-toe          strain from the foot of the elastic line (default), or from the record's own zero
  --zero-load FORCE         taken off every force as its zero: "12 N", "-3 lbf"
  --zero-extension LENGTH, --zero-travel LENGTH
                            the same for extension and crosshead travel: "0.02 mm"
  --calibration FILE.csv    calibration table of the readout: two columns like shown_kN,actual_kN (force) or
                            shown_mm,actual_mm (extension), rising from line to line; once for each of the two
  --compliance BLANK.csv|PULL
                            curve of a blank run (force and travel, a stiff bar in the grips), or the number of its pull in
                            the archive: what frame and grips gave is taken off the crosshead travel; only together with
                            --strain-from travel
  --section WORD            ${SECTION_RULES.join(', ')}: which measured section is S0 (default mean)
  --section-form WORD       ${ARC_FORMS.join(', ')}: area of a strip cut from pipe (default arc)
  --rounding RULE           ${ROUNDING_RULES.join(', ')}
  --final-section WORD      parabola or plain: neck of a flat specimen (default parabola for three thicknesses)
  --required-elongation PERCENT
                            an elongation that meets it counts wherever the specimen broke
  --convert-elongation LENGTH --material-kind ${MATERIAL_KINDS.join('|')}
                            A on another gauge length ("200 mm", "8 in") by ISO 2566-1 or ISO 2566-2
  --readout-class CLASS     ISO 7500-1 class of the force-measuring system: ${FORCE_CLASSES.join(', ')} (default 1, and it says so)
  --readout-uncertainty PERCENT
                            expanded uncertainty of the force (k = 2) from its certificate, instead of the class
  --readout-resolution FORCE
                            step of the force readout, "10 N"
  --extensometer-class CLASS
                            ISO 9513 class of the extensometer: ${EXTENSOMETER_CLASSES.join(', ')} (default 1, and it says so)
  --hardening-range LOW..HIGH
                            plastic strains in percent for n and K (default 2 to 20, or to Ag)
  --line-format FILE.json|NAME
                            of an archived pull: its lines read again from the raw bytes by this readout profile, a file
                            or one that comes with the program, instead of the one of the time`;
