/** People of this machine: who they are, what they do here, and a PIN where one is wanted. Nobody is deleted. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Person } from '../../core/contract/people-requests.ts';
import { Button } from '../design/button.tsx';
import { drawnAtOnce } from '../design/drawn-at-once.ts';
import { TableScroll } from '../design/table-scroll.tsx';
import { people, readPeople } from '../store/people.ts';
import { words } from '../words/words.ts';
import { PersonForm } from './person-form.tsx';
import '../stations/station.css';
import '../archive/archive-place.css';
import './people-place.css';

export function PeoplePlace() {
  const text = words.value.people;
  /** The person who is corrected, somebody new, or nobody. */
  const open = useSignal<Person | 'new' | null>(null);
  useEffect(() => void readPeople(), []);
  const close = () => {
    drawnAtOnce(() => (open.value = null));
    document.getElementById('add-person')?.focus();
  };
  const subject = open.value;
  return (
    <div class="station people">
      <h2>{words.value.stations.people}</h2>
      <p class="pencil">{text.lead}</p>
      {people.value.length === 0 ? (
        <p class="empty">{text.nobody}</p>
      ) : (
        <PeopleTable onOpen={(one) => (open.value = one)} />
      )}
      {subject === null ? (
        <div class="actions">
          <Button kind="call" id="add-person" onPress={() => (open.value = 'new')}>
            {text.add}
          </Button>
        </div>
      ) : (
        <PersonForm
          key={subject === 'new' ? 'new' : subject.personId}
          before={subject === 'new' ? null : subject}
          onClose={close}
        />
      )}
    </div>
  );
}

function PeopleTable({ onOpen }: { readonly onOpen: (one: Person) => void }) {
  const text = words.value.people;
  return (
    <TableScroll label={words.value.stations.people}>
      <table class="pull-table">
        <thead>
          <tr>
            <th scope="col">{text.name}</th>
            <th scope="col">{text.sign}</th>
            <th scope="col">{text.roles}</th>
            <th scope="col">{text.pin}</th>
            <th scope="col">{text.state}</th>
          </tr>
        </thead>
        <tbody>
          {people.value.map((one) => (
            <tr key={one.personId} class={one.retired ? 'retired' : undefined}>
              <td>
                <button type="button" class="open-pull" onClick={() => onOpen(one)}>
                  <bdi>{one.name}</bdi>
                </button>
              </td>
              <td>
                <bdi>{one.sign}</bdi>
              </td>
              <td>{one.roles.map((role) => text.roleWords[role]).join(', ') || words.value.common.none}</td>
              <td>{one.hasPin ? text.withPin : text.withoutPin}</td>
              <td>{one.retired ? text.retired : text.here}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableScroll>
  );
}
