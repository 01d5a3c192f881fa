/** Entry of a name: the people of this machine are offered, and any other name can be typed. */
import { useId } from 'preact/hooks';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { Field, type FieldProps } from '../design/field.tsx';
import { people } from '../store/people.ts';

export function PersonField(props: Omit<FieldProps, 'list' | 'lengthMax' | 'number' | 'lines'>) {
  const listId = useId();
  const here = people.value.filter(({ retired }) => !retired);
  return (
    <>
      <Field {...props} lengthMax={NAME_LENGTH_MAX} list={listId} />
      <datalist id={listId}>
        {here.map(({ personId, name, sign }) => (
          <option key={personId} value={name}>
            {sign}
          </option>
        ))}
      </datalist>
    </>
  );
}
