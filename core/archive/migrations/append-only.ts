/** Triggers by which the database itself refuses to change or delete rows. */

export const appendOnly = (tables: readonly string[]): string =>
  tables
    .map(
      (table) => `
CREATE TRIGGER ${table}_is_not_changed BEFORE UPDATE ON ${table}
BEGIN SELECT RAISE(ABORT, 'rows of ${table} are never changed'); END;
CREATE TRIGGER ${table}_is_not_deleted BEFORE DELETE ON ${table}
BEGIN SELECT RAISE(ABORT, 'rows of ${table} are never deleted'); END;`,
    )
    .join('\n');
