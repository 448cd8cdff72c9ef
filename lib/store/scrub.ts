import "server-only"
import { connect } from "./connect"
import { patientTables } from "./rights"

const typedTables = ["chart_notes", "chart_baselines", "measure_actions"]

const rewritten = [
  ...patientTables,
  "rejected_rows",
  "month_closings",
  "drug_name_mappings",
  "emergency_accesses",
  ...typedTables,
]

/**
 * Rewrites the tables that held erased rows, with what the planner remembers of their values, so that the database's files no
 * longer have them. `isOwnServer`: the log of changes that the server would replay after a crash is ended and taken away, too;
 * on a server of the clinic's own that, and its backups, are its operator's.
 */
export async function scrubTables(options: { databaseUrl: string; isOwnServer: boolean }): Promise<void> {
  const client = await connect(options.databaseUrl)
  try {
    for (const table of rewritten) await client.query(`vacuum (full, analyze) ${table}`)
    if (!options.isOwnServer) return
    await client.query("vacuum full pg_catalog.pg_statistic")
    // A segment of the log is else kept under a new name, with what it held, until it is written over.
    await client.query("alter system set wal_recycle = off")
    await client.query("select pg_reload_conf()")
    for (let again = 0; again < 3; again++) {
      await client.query("select pg_switch_wal()")
      await client.query("checkpoint")
    }
    await client.query("alter system reset wal_recycle")
    await client.query("select pg_reload_conf()")
  } finally {
    await client.end()
  }
}
