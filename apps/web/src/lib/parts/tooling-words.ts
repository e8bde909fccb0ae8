import { m } from '$lib/paraglide/messages.js';

const fixtureWords: Readonly<Record<string, () => string>> = {
  code: m.fixture_code,
  place: m.fixture_place,
  condition: m.fixture_condition,
  lastCheckOn: m.fixture_checked,
  notes: m.part_notes,
};

export function fixtureLabel(field: string): string {
  const name = field.replace(/^body\./, '');
  return fixtureWords[name]?.() ?? name;
}

const programWords: Readonly<Record<string, () => string>> = {
  name: m.program_name,
  revision: m.program_revision,
  cellId: m.program_cell,
  author: m.program_author,
  writtenOn: m.program_written,
  backupPlace: m.program_backup,
  notes: m.part_notes,
};

export function programLabel(field: string): string {
  const name = field.replace(/^body\./, '');
  return programWords[name]?.() ?? name;
}
