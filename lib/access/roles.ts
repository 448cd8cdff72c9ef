/** What a person is at the clinic; someone may hold several. */
export const roles = [
  "clinic-lead",
  "care-coordinator",
  "nephrologist",
  "dietitian",
  "nurse",
  "administrator",
  "auditor",
] as const

export type Role = (typeof roles)[number]

export const roleWords: Readonly<Record<Role, string>> = {
  "clinic-lead": "clinic lead",
  "care-coordinator": "care coordinator",
  nephrologist: "nephrologist",
  dietitian: "dietitian",
  nurse: "nurse",
  administrator: "administrator",
  auditor: "auditor",
}

export function isRole(word: string): word is Role {
  return roles.some((role) => role === word)
}
