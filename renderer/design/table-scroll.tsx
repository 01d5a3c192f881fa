/** A table that may be wider than its place: scrolled sideways in it, by keys too, and named for whoever hears the page. */
import type { ComponentChildren } from 'preact';
import './table-scroll.css';

export interface TableScrollProps {
  readonly label: string;
  /** What else its place is. */
  readonly of?: string;
  readonly children: ComponentChildren;
}

export function TableScroll({ label, of, children }: TableScrollProps) {
  return (
    <div
      class={of === undefined ? 'table-scroll' : `table-scroll ${of}`}
      tabIndex={0}
      role="region"
      aria-label={label}
    >
      {children}
    </div>
  );
}
