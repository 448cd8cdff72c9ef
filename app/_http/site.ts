import { readEnvironment } from "../../lib/env"
import { siteDatabaseUrl, store } from "../../lib/store/client"

/** What a job that the site starts needs to know of it. */
export function site() {
  const { dataDir, importDatabaseUrl, snapshotDatabaseUrl } = readEnvironment()
  const own = siteDatabaseUrl()
  return {
    client: store(),
    dataDir,
    /** Where the processes reach the database that import, and that build the snapshot. */
    importUrl: importDatabaseUrl ?? own,
    snapshotUrl: snapshotDatabaseUrl ?? own,
  }
}
