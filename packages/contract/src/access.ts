/** Who may do what, as data: the server enforces it, the web reuses it only to hide. */

export const roles = ['office', 'welder', 'qa', 'manager'] as const;
export type Role = (typeof roles)[number];

export type Access =
  /** Anyone who reaches the address. */
  | { readonly kind: 'public' }
  /** A registered cell tablet, or anyone signed in: the queue may be read at the cell while signed out. */
  | { readonly kind: 'tabletOrPerson' }
  /** A registered cell tablet only: PIN sign-in. */
  | { readonly kind: 'tablet' }
  /** Signed in with one of the roles. */
  | {
      readonly kind: 'person';
      readonly roles: readonly Role[];
      /** The coordinator's authority: needed beside the role, or enough in any role. */
      readonly coordinator?: 'needed' | 'enough';
    };

export const access = {
  public: { kind: 'public' },
  tabletOrPerson: { kind: 'tabletOrPerson' },
  tablet: { kind: 'tablet' },
  signedIn: { kind: 'person', roles },
  office: { kind: 'person', roles: ['office', 'manager'] },
  oversight: { kind: 'person', roles: ['qa', 'manager'], coordinator: 'enough' },
  qa: { kind: 'person', roles: ['qa'] },
  coordinator: { kind: 'person', roles, coordinator: 'needed' },
  manager: { kind: 'person', roles: ['manager'] },
  planning: { kind: 'person', roles: ['office', 'manager', 'qa'] },
  cell: { kind: 'person', roles: ['welder', 'qa', 'manager'] },
} as const satisfies Record<string, Access>;

export interface Caller {
  readonly person: { readonly role: Role; readonly coordinator: boolean } | null;
  readonly tablet: boolean;
}

/** The one rule that both the server and the screens ask. */
export function mayCall(rule: Access, caller: Caller): boolean {
  switch (rule.kind) {
    case 'public':
      return true;
    case 'tabletOrPerson':
      return caller.tablet || caller.person !== null;
    case 'tablet':
      return caller.tablet;
    case 'person':
      return caller.person !== null && mayPerson(rule, caller.person);
  }
}

function mayPerson(
  { roles: allowed, coordinator }: Extract<Access, { kind: 'person' }>,
  person: NonNullable<Caller['person']>,
): boolean {
  if (coordinator === 'enough' && person.coordinator) return true;
  return allowed.includes(person.role) && (coordinator !== 'needed' || person.coordinator);
}
