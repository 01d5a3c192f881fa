/** `npm run sbom`: writes the bill of materials of what users get to `out/sbom.cdx.json`. */
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { onPinnedNode } from '../setup/on-pinned-node.mjs';
import { projectFolder } from '../setup/places.mjs';

await onPinnedNode({
  script: import.meta.url,
  work: async (say) => {
    const { billOfMaterials } = await import('./shipped-libraries.mjs');
    const file = join(projectFolder, 'out', 'sbom.cdx.json');
    const bill = await billOfMaterials();
    await mkdir(join(projectFolder, 'out'), { recursive: true });
    await writeFile(file, bill);
    say(`Wrote ${file}.`);
    return 0;
  },
});
