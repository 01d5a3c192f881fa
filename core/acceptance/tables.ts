/** The tables of base metals and filler classes that come with the program. */
import aluminiumAsWelded from './tables/aluminium-as-welded.json' with { type: 'json' };
import austeniticStainlessSteel from './tables/austenitic-stainless-steel.json' with { type: 'json' };
import a51 from './tables/aws-a5.1.json' with { type: 'json' };
import a518 from './tables/aws-a5.18.json' with { type: 'json' };
import a520 from './tables/aws-a5.20.json' with { type: 'json' };
import a528 from './tables/aws-a5.28.json' with { type: 'json' };
import a54 from './tables/aws-a5.4.json' with { type: 'json' };
import a55 from './tables/aws-a5.5.json' with { type: 'json' };
import europeanSteel from './tables/european-steel.json' with { type: 'json' };
import linePipeOlder from './tables/line-pipe-older.json' with { type: 'json' };
import linePipeQw422 from './tables/line-pipe-qw-422.json' with { type: 'json' };
import linePipe from './tables/line-pipe.json' with { type: 'json' };
import steel from './tables/structural-and-pressure-steel.json' with { type: 'json' };
import { type MaterialTable, materialTableFile } from './material.ts';

const FILES: readonly unknown[] = [
  steel,
  austeniticStainlessSteel,
  linePipe,
  linePipeOlder,
  linePipeQw422,
  aluminiumAsWelded,
  europeanSteel,
  a51,
  a54,
  a55,
  a518,
  a520,
  a528,
];

let checked: ReadonlyMap<string, MaterialTable> | null = null;

/** The tables by id. Throws where a table of the program itself is wrong: that is a bug. */
export function materialTables(): ReadonlyMap<string, MaterialTable> {
  checked ??= new Map(FILES.map((file) => materialTableFile.parse(file)).map((table) => [table.id, table]));
  return checked;
}
