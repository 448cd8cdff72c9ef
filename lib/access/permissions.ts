import { isRole, type Role } from "./roles"

type Permission = { readonly words: string; readonly roles: readonly Role[] }

const care = ["clinic-lead", "care-coordinator", "nephrologist", "dietitian", "nurse"] as const

/**
 * Who may do what, each capability with the roles that have it. The one table that every page, action, route and the
 * database go by. An administrator sees counts and no person; an auditor sees the audit log alone.
 */
export const permissions = {
  "account.own": { words: "their own account", roles: [...care, "administrator", "auditor"] },
  "figures.see": { words: "counts and rates of the clinic", roles: [...care, "administrator"] },
  "people.see": { words: "people and their facts", roles: care },
  "people.export": {
    words: "lists of people as files",
    roles: ["clinic-lead", "care-coordinator", "nephrologist"],
  },
  "reports.export": {
    words: "the documents of a month, in counts",
    roles: ["clinic-lead", "care-coordinator", "nephrologist", "administrator"],
  },
  "settings.see": { words: "the clinic's settings", roles: [...care, "administrator"] },
  "months.close": { words: "close and reopen months", roles: ["clinic-lead"] },
  "settings.change": { words: "change the clinic's settings", roles: ["clinic-lead"] },
  "actions.write": {
    words: "write decisions and actions of the meeting",
    roles: care,
  },
  "outreach.work": { words: "work on the cases of people to contact", roles: care },
  "urgent.acknowledge": {
    words: "acknowledge something urgent",
    roles: ["clinic-lead", "care-coordinator", "nephrologist", "nurse"],
  },
  "urgent.judge": {
    words: "acknowledge it without naming who was told",
    roles: ["clinic-lead", "nephrologist", "nurse"],
  },
  "decisions.make": {
    words: "decide about a person's diet",
    roles: ["clinic-lead", "nephrologist", "dietitian"],
  },
  "decisions.treat": {
    words: "decide about a person's pressure and drugs",
    roles: ["clinic-lead", "nephrologist"],
  },
  "readings.enter": { words: "enter home pressures and diet records by hand", roles: care },
  "readings.withdraw": { words: "withdraw what others entered by hand", roles: ["clinic-lead"] },
  "charts.note": { words: "write notes on charts and set their baselines", roles: ["clinic-lead"] },
  "imports.see": { words: "imports and their counts", roles: ["clinic-lead", "administrator"] },
  "imports.manage": { words: "bring in extracts and map codes", roles: ["administrator"] },
  "imports.rows": { words: "rows of an extract that were held or rejected", roles: ["clinic-lead"] },
  "users.manage": { words: "people who sign in, and their roles", roles: ["administrator"] },
  "audit.see": { words: "the audit log", roles: ["auditor", "clinic-lead"] },
  "emergency.open": {
    words: "people beyond their own panel in an emergency",
    roles: ["care-coordinator", "nephrologist", "nurse"],
  },
  "emergency.review": { words: "review emergency access", roles: ["clinic-lead", "auditor"] },
  "records.manage": { words: "hand out, keep and erase a person's record", roles: ["clinic-lead"] },
} as const satisfies Record<string, Permission>

export type Capability = keyof typeof permissions

/** What an administrator may give one person beyond their roles, each with a reason. */
export const grantable = ["imports.rows"] as const satisfies readonly Capability[]

export const capabilities: readonly Capability[] = Object.keys(permissions).filter(isCapability)

/** Whether someone with these roles and grants may do it; words that are none of ours give nothing. */
export function may(
  holder: { roles: readonly string[]; grants: readonly string[] },
  what: Capability,
): boolean {
  const having: readonly Role[] = permissions[what].roles
  if (holder.roles.some((role) => isRole(role) && having.includes(role))) return true
  return grantable.some((grant) => grant === what) && holder.grants.includes(what)
}

function isCapability(word: string): word is Capability {
  return word in permissions
}
