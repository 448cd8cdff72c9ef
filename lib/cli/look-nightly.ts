import { reconcileCases } from "../jobs/reconcile-cases"
import { openClient } from "../store/client"
import { everyNight } from "./nightly"
import { say } from "./say"

/**
 * Looks at the cases of people to contact now and every night as long as this process lives: days alone wake whoever was
 * snoozed and end what a closing holds back, also while no extract comes. A failure is told and tried again.
 */
export async function lookNightly(place: { databaseUrl: string; dataDir: string }): Promise<void> {
  const once = async () => {
    const client = openClient(place.databaseUrl)
    try {
      await reconcileCases({ client, dataDir: place.dataDir, now: new Date() })
    } finally {
      await client.$disconnect()
    }
  }
  const fail = () =>
    say("The cases could not be brought up to date. The next night, or filtrate refresh, tries again.")
  await once().catch(fail)
  everyNight(once, fail)
}
