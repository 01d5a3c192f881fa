import { h, type VNode } from 'preact';
import { expect, it } from 'vitest';
import { SymbolText } from '../../../renderer/design/symbol-text.tsx';

/** What is drawn, with low-set parts in underscores. */
function drawn(node: unknown): string {
  if (typeof node === 'string') return node;
  if (Array.isArray(node)) return node.map(drawn).join('');
  if (node === null || typeof node !== 'object') return '';
  const { type, props } = node as VNode<{ children?: unknown }>;
  const inner = drawn(props.children);
  return type === 'sub' ? `_${inner}_` : inner;
}

// Symbols of ISO 6892-1.
it.each([
  ['Rm = Fm / S0', 'R_m_ = F_m_ / S_0_'],
  ['Rp0.2', 'R_p0.2_'],
  ['ReH and ReL', 'R_eH_ and R_eL_'],
  ['Agt', 'A_gt_'],
  ['A', 'A'],
  ['S0 = b0·a0', 'S_0_ = b_0_·a_0_'],
  ['S0 = π·d0²/4', 'S_0_ = π·d_0_²/4'],
  ['Su = bu·tu', 'S_u_ = b_u_·t_u_'],
  ['Result of the pull', 'Result of the pull'],
  ['Round at 200 mm', 'Round at 200 mm'],
  ['At the peak; at = 3', 'At the peak; at = 3'],
  ['At = 31 %', 'A_t_ = 31 %'],
  // Words of Spanish.
  ['Su nombre', 'Su nombre'],
  ['Le falta la carga Fm', 'Le falta la carga F_m_'],
  ['Su, Le', 'S_u_, L_e_'],
  ['Wm and Wt', 'W_m_ and W_t_'],
  ['mE', 'm_E_'],
  ['σm = 5, εm', 'σ_m_ = 5, ε_m_'],
  ['Rt0.5 / Lc', 'R_t0.5_ / L_c_'],
])('sets the index of %s low', (text, expected) => {
  expect(drawn(SymbolText({ text }))).toBe(expected);
  expect(h(SymbolText, { text })).toBeTruthy();
});

it('keeps the name of a standard and a day in one line, sign for sign', () => {
  // The hyphen of ISO 6892-1 would else be a place to break at; what is copied must stay ISO 6892-1.
  const text = 'mean of ISO 6892-1, from memory; R-1 and 5-6 m; like 2019-05-14, or 2019-05-14 10:30';
  const { children } = SymbolText({ text }).props as { children: unknown[] };
  const spans = children.flat(9).filter((one): one is VNode => typeof one === 'object' && one !== null);
  expect(spans.map((one) => [one.type, (one.props as { class?: string }).class, drawn(one)])).toEqual([
    ['span', 'in-one-line', 'ISO 6892-1'],
    ['span', 'in-one-line', '2019-05-14'],
    ['span', 'in-one-line', '2019-05-14 10:30'],
  ]);
  expect(drawn(SymbolText({ text }))).toBe(text);
});
