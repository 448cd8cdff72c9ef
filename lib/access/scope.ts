import { may } from "./permissions"
import { isRole, type Role } from "./roles"

/** Whose facts someone may see: those of these sites and of this clinician's panel; null is no limit. */
export type Scope = {
  readonly sites: readonly string[] | null
  /** Whose panel, as the extract's staff are called; a name that is nobody's holds nobody. */
  readonly panelOf: string | null
}

/** Everybody: for commands, and for a person whom nothing limits. */
export const wholeClinic: Scope = { sites: null, panelOf: null }

export function isWhole(scope: Scope): boolean {
  return scope.sites === null && scope.panelOf === null
}

/** The answers to the setting `access.ownPanel`, each with the roles that see their own panel only. */
export const ownPanelRoles = {
  none: [],
  nephrologist: ["nephrologist"],
} as const satisfies Record<string, readonly Role[]>

type Holder = {
  readonly roles: readonly string[]
  readonly staffId: string | null
  readonly sites: readonly string[]
}

/**
 * What someone sees. A role that is limited to its own panel limits a person only if no other of their roles shows people
 * without that limit; without a link to the staff list an own panel is nobody's. An emergency lifts every limit.
 */
export function scopeOf(
  holder: Holder,
  situation: { ownPanel: keyof typeof ownPanelRoles; isEmergency: boolean },
): Scope {
  if (situation.isEmergency) return wholeClinic
  const limited: readonly Role[] = ownPanelRoles[situation.ownPanel]
  const showing = holder.roles
    .filter(isRole)
    .filter((role) => may({ roles: [role], grants: [] }, "people.see"))
  const isLimited = showing.length > 0 && showing.every((role) => limited.includes(role))
  return {
    sites: holder.sites.length > 0 ? holder.sites : null,
    panelOf: isLimited ? (holder.staffId ?? "") : null,
  }
}
