import "server-only"

/** The roles of the database beside the owner of its tables: the site's, that of imports, and that of the snapshot's builder. */
export const databaseRoles = ["app", "import", "snapshot"] as const

export type DatabaseRole = (typeof databaseRoles)[number]

/** What each role may do with a table; what is not named is refused. */
type Rights = Partial<Record<DatabaseRole, string>>

const readOnly: Rights = { app: "select", import: "select", snapshot: "select" }

/** Facts are never changed by the site but to end one that is held; an import ends versions and adds new ones. */
const ledger: Rights = {
  app: "select, update (ended_at, ended_by, end_reason)",
  import: "select, insert, update",
  snapshot: "select",
}

/** Accounts concern the site alone. Nothing of a person who signs in is deleted but what is used up. */
const account: Rights = { app: "select, insert, update" }
const usedUp: Rights = { app: "select, insert, update, delete" }

const auditColumns =
  "actor, actor_name, roles, session, origin, action, object, object_id, purpose, outcome, address, people, people_hash, detail"

/** What a person's work changes of a case. */
const workedColumns =
  "state, assigned_to, snoozed_until, again_on, acknowledged_at, acknowledged_by, closed_at, closed_on, closed_by, close_reason, held_for, held_urgent, round, version, opened_at"

/** The audit log is added to; its number, time and hashes are the chain's own. The site alone reads it. */
const added = `insert (${auditColumns})`

/** What is being done about reasons to contact people, by what names what first. */
export const outreachTables = ["outreach_events", "outreach_case_reasons", "outreach_cases"] as const

/** The tables with rows about patients; each has row security. */
export const patientTables = [
  ...outreachTables,
  "clinician_decisions",
  ...["patients", "patient_records", "visits", "appointments", "readings", "lab_results"],
  ...["medication_orders", "problems", "allergies", "diet_records"],
] as const

/** The least each role needs, for every table there is; a table that is not listed can be used by nobody but the owner. */
export const rightsByTable: Readonly<Record<string, Rights>> = {
  ...Object.fromEntries(patientTables.map((table) => [table, ledger])),
  patients: { app: "select", import: "select, insert", snapshot: "select" },
  // A look at the data, which opens and closes cases, is the last step of an import and of a build.
  outreach_cases: {
    app: `select, update (${workedColumns})`,
    import: "select, insert, update",
    snapshot: "select, insert, update",
  },
  outreach_case_reasons: {
    app: "select",
    import: "select, insert, update",
    snapshot: "select, insert, update",
  },
  outreach_events: { app: "select, insert", import: "select, insert", snapshot: "select, insert" },
  clinician_decisions: {
    app: "select, insert, update (undone_on, undone_at, undone_by, replaced_by_id)",
    // The last step of an import is a build.
    import: "select",
    snapshot: "select",
  },
  staff: { app: "select", import: "select, insert, update", snapshot: "select" },
  clinics: { app: "select, update", import: "select", snapshot: "select" },
  settings: { app: "select, insert, update", import: "select", snapshot: "select" },
  setting_changes: { app: "select, insert" },
  drug_name_mappings: { app: "select, insert, update, delete", import: "select", snapshot: "select" },
  imports: { app: "select, insert, update", import: "select, insert, update, delete", snapshot: "select" },
  import_files: { app: "select", import: "select, insert, update, delete", snapshot: "select" },
  rejected_rows: { app: "select", import: "select, insert, delete" },
  snapshot_builds: {
    app: "select",
    import: "select, insert, update",
    snapshot: "select, insert, update",
  },
  month_closings: {
    app: "select, insert, update (reopened_at, reopened_by, reopen_reason)",
    import: "select",
    snapshot: "select",
  },
  outreach_views: { app: "select, insert, delete" },
  letter_templates: { app: "select, insert" },
  users: account,
  sessions: account,
  emergency_accesses: account,
  recovery_codes: usedUp,
  passkeys: usedUp,
  passkey_challenges: usedUp,
  one_time_links: usedUp,
  sign_in_failures: usedUp,
  audit_entries: {
    app: `select, ${added}`,
    import: `select (seq), ${added}`,
    snapshot: `select (seq), ${added}`,
  },
  audit_people: { app: "select, insert", import: "select, insert", snapshot: "select, insert" },
  erasures: { app: "select, insert, update (withdrawn_at)" },
  measure_actions: {
    app: "select, insert, update (state, outcome, closed_by, closed_at, version)",
  },
  chart_notes: { app: "select, insert, update (undone_at, undone_by)" },
  chart_baselines: { app: "select, insert, update (undone_at, undone_by)" },
  erased_numbers: { import: "select" },
  kept_figures: { app: "select" },
  _prisma_migrations: readOnly,
}
