/** The archive: find a pull, open it, see curve and result exactly as they were stored. */
import { archivePullId } from '../store/place.ts';
import { ArchiveList } from './archive-list.tsx';
import { ArchivedPull } from './archived-pull.tsx';
import '../stations/station.css';
import './archive-place.css';

export function ArchivePlace() {
  const pullId = archivePullId.value;
  return pullId === null ? <ArchiveList /> : <ArchivedPull key={pullId} pullId={pullId} />;
}
