import { readEnvironment } from "../../lib/env"
import { siteDatabaseUrl, store } from "../../lib/store/client"

/** What a job that the site starts needs to know of it. */
export function site() {
  return { client: store(), databaseUrl: siteDatabaseUrl(), dataDir: readEnvironment().dataDir }
}
