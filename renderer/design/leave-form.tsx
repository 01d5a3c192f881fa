/** The button by which a form is left without keeping: it says so where something is typed that goes with it. */
import { words } from '../words/words.ts';
import { Button } from './button.tsx';

export interface LeaveFormProps {
  readonly isTyped: boolean;
  readonly onPress: () => void;
  readonly id?: string;
}

/** The same words in every form. */
export const leaveWords = (isTyped: boolean): string =>
  isTyped ? words.value.common.leaveTyped : words.value.common.leave;

export function LeaveForm({ isTyped, onPress, id }: LeaveFormProps) {
  return (
    <Button onPress={onPress} {...(id === undefined ? {} : { id })}>
      {leaveWords(isTyped)}
    </Button>
  );
}
