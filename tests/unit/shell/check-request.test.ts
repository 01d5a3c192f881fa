import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pageContract } from '../../../core/contract/bridge.ts';
import { checkRequest } from '../../../electron/main/check-request.ts';
import { GrantedPaths } from '../../../electron/main/granted-paths.ts';

describe('what a page may ask', () => {
  it('passes a request of the contract in its form, cleaned by the schema', () => {
    expect(checkRequest('window.set-theme', { theme: 'dark' })).toEqual({
      ok: true,
      name: 'window.set-theme',
      payload: { theme: 'dark' },
    });
  });

  it('refuses what is not in the contract, also names that every object has', () => {
    for (const name of ['shell.open', 'constructor', '__proto__', 'toString', '', 7, null, ['port.list']]) {
      const checked = checkRequest(name, {});
      expect(checked.ok ? null : checked.fault.code).toBe('request-unknown');
    }
  });

  it('refuses a wrong form, names the field, and says it in words of its own', () => {
    const checked = checkRequest('pull.get', { pullId: 'one' });
    expect(checked.ok ? null : checked.fault).toEqual({
      code: 'request-malformed',
      field: 'pullId',
      sentence:
        '"pull.get" was asked for in a wrong form (pullId: "one" stands here; it must be a number). Nothing was done.',
    });
    for (const payload of [null, [], 7n, { pullId: 7n }, { pullID: 1 }, { pullId: 1.5 }, { pullId: -1 }]) {
      const wrong = checkRequest('pull.get', payload);
      expect(wrong.ok ? '' : wrong.fault.sentence).toMatch(/^"pull\.get" was asked for in a wrong form \(/);
      expect(wrong.ok ? '' : wrong.fault.sentence).not.toMatch(/invalid|expected|received/i);
    }
  });

  it('refuses fields that the contract does not know', () => {
    expect(checkRequest('port.list', { shell: 'rm' }).ok).toBe(false);
  });

  it('never throws, and a refusal is always a fault of the contract form', () => {
    const names = fc.oneof(fc.constantFrom(...Object.keys(pageContract)), fc.string());
    fc.assert(
      fc.property(names, fc.anything(), (name, payload) => {
        const checked = checkRequest(name, payload);
        if (!checked.ok) expect(checked.fault.sentence.length).toBeLessThanOrEqual(2_000);
      }),
      { numRuns: 500 },
    );
  });
});

describe('files that a page names', () => {
  it('are refused unless a person chose them in a dialog', () => {
    const granted = new GrantedPaths();
    const wish = { pullId: 1, to: '/home/somebody/.profile' };
    expect(granted.faultOf('archive.export', wish)?.code).toBe('path-not-chosen');
    granted.grant('/home/somebody/T-1.csv');
    expect(granted.faultOf('archive.export', wish)?.field).toBe('to');
    expect(granted.faultOf('archive.export', { pullId: 1, to: '/home/somebody/T-1.csv' })).toBeNull();
  });

  it('are refused as a replayed source too', () => {
    const source = { kind: 'replay', file: '/etc/passwd' };
    expect(new GrantedPaths().faultOf('readout.open', { source })?.field).toBe('source.file');
    expect(new GrantedPaths().faultOf('pull.ready', { source })?.field).toBe('source.file');
  });

  it('do not concern requests without any', () => {
    expect(new GrantedPaths().faultOf('session.get', {})).toBeNull();
  });
});
