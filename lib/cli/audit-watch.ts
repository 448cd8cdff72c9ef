import { record } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import { anchorAudit } from "../store/audit-anchors"
import { checkAudit } from "../store/audit-check"
import { faultSentence } from "../store/audit-faults"
import { openClient } from "../store/client"
import type { PrismaClient } from "../store/generated/client"
import { everyNight } from "./nightly"
import { say } from "./say"

type Place = { databaseUrl: string; dataDir: string }

/** Records that the site starts, notes the end of the log outside the database, and verifies the log every night from then on. */
export async function watchAudit(place: Place): Promise<void> {
  const { dataDir } = place
  await withClient(place, async (client) => {
    await record(client, { by: commandActor(), action: "site.start" })
    await anchorAudit(client, { dataDir, now: new Date() })
  })
  everyNight(
    () =>
      withClient(place, async (client) => {
        const { first } = await checkAudit(client, { by: commandActor(), dataDir, now: new Date() })
        if (first) say(faultSentence(first))
      }),
    () => say("The audit log could not be verified this night; filtrate audit verify tries again."),
  )
}

async function withClient(place: Place, work: (client: PrismaClient) => Promise<void>): Promise<void> {
  const client = openClient(place.databaseUrl)
  try {
    await work(client)
  } finally {
    await client.$disconnect()
  }
}
