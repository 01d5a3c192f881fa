/** A port that was named by its path alone (command line, typed in the window, second instrument) is held to its adapter too. */
import { expect, it } from 'vitest';
import type { ListedPort, PortIdentity, Source } from '../../../core/contract/source.ts';
import { PROFILE } from '../archive/made-archive.ts';
import { BY_HAND, begunRecorder } from './begun-recorder.ts';

const ADAPTER: PortIdentity = {
  vendorId: '0403',
  productId: '6001',
  serialNumber: 'K7Q2WX',
  location: 'usb-1-2',
};
const PATH = '/dev/ttyUSB0';

/** The source as it was opened and as it was kept with the pull. */
async function pulledAt(
  ports: readonly ListedPort[],
  source: Source,
): Promise<[Source | undefined, unknown]> {
  const { ask, specimenId, opened } = await begunRecorder({ ports });
  const { pullId } = await ask('pull.ready', { specimenId, source, profile: PROFILE, ...BY_HAND });
  await ask('pull.close', {});
  return [opened[0], (await ask('pull.get', { pullId })).source];
}

it('is opened and kept with the identity of the adapter behind it, so that it is found again elsewhere', async () => {
  const listed = [
    { path: PATH, identity: ADAPTER },
    { path: '/dev/ttyS0', identity: {} },
  ];
  const expected = { kind: 'serial', path: PATH, identity: ADAPTER };
  expect(await pulledAt(listed, { kind: 'serial', path: PATH })).toEqual([expected, expected]);
});

it('stays a path where the adapter is not known, and where another could be taken for it', async () => {
  const nameless: PortIdentity = { vendorId: '1a86', productId: '7523' };
  const twins = [
    { path: PATH, identity: nameless },
    { path: '/dev/ttyUSB1', identity: nameless },
  ];
  const plain = { kind: 'serial', path: PATH } as const;
  for (const listed of [
    [],
    [{ path: PATH, identity: {} }],
    [{ path: '/dev/ttyUSB1', identity: ADAPTER }],
    twins,
  ])
    expect(await pulledAt(listed, plain)).toEqual([plain, plain]);
});

it('keeps the identity with which it was chosen', async () => {
  const chosen: Source = { kind: 'serial', path: PATH, identity: ADAPTER };
  const other = [{ path: PATH, identity: { ...ADAPTER, serialNumber: 'ZZ9' } }];
  expect(await pulledAt(other, chosen)).toEqual([chosen, chosen]);
});
