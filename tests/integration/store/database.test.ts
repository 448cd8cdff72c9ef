import { createServer } from "node:net"
import { once } from "node:events"
import path from "node:path"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { readEnvironment } from "../../../lib/env"
import { openClient } from "../../../lib/store/client"
import { openDatabase } from "../../../lib/store/database"
import { createDatabase } from "../../helpers/open-store"
import { temporaryFolder } from "../../helpers/temporary-folder"

let temporary: ReturnType<typeof temporaryFolder>
let own: Awaited<ReturnType<typeof createDatabase>>

beforeAll(async () => {
  temporary = temporaryFolder()
  own = await createDatabase()
})

afterAll(async () => {
  await own.drop()
  temporary.remove()
})

describe("a Postgres of one's own", () => {
  test("is used when DATABASE_URL names it, with its tables made at the first use", async () => {
    const said: string[] = []
    const environment = { ...noDemo(), databaseUrl: own.url, timeZone: "Europe/Oslo" }

    const database = await openDatabase({ environment, say: (line) => said.push(line) })

    const client = openClient(database.url)
    expect(database.url).toBe(own.url)
    expect(said.join()).toContain("Prepared the tables")
    expect(await client.clinic.findMany({ select: { id: true, timeZone: true, isDemo: true } })).toEqual([
      { id: 1, timeZone: "Europe/Oslo", isDemo: false },
    ])
    await client.$disconnect()
    await database.close()
  })

  test("keeps the clinic's time zone until another is asked for", async () => {
    const zoneAfter = async (timeZone: string | undefined) => {
      const database = await openDatabase({ environment: { ...noDemo(), databaseUrl: own.url, timeZone } })
      const client = openClient(database.url)
      const clinic = await client.clinic.findUniqueOrThrow({ where: { id: 1 } })
      await client.$disconnect()
      await database.close()
      return clinic.timeZone
    }

    expect(await zoneAfter("Europe/Oslo")).toBe("Europe/Oslo")
    expect(await zoneAfter(undefined)).toBe("Europe/Oslo")
    expect(await zoneAfter("America/Chicago")).toBe("America/Chicago")
  })

  test("that does not answer is named by its variable", async () => {
    const closed = await aClosedPort()
    const environment = { ...noDemo(), databaseUrl: `postgres://nobody@127.0.0.1:${closed}/none` }

    await expect(openDatabase({ environment })).rejects.toThrow("DATABASE_URL cannot be reached")
  })
})

test("a variable that cannot be read is named", () => {
  expect(() => readEnvironment({ NODE_ENV: "test", PORT: "eighty" })).toThrow("PORT")
  expect(() => readEnvironment({ NODE_ENV: "test", FILTRATE_TIME_ZONE: "Mars" })).toThrow(
    "FILTRATE_TIME_ZONE",
  )
})

function noDemo() {
  const FILTRATE_DATA = path.join(temporary.folder, "data")
  return readEnvironment({ NODE_ENV: "test", FILTRATE_DATA, FILTRATE_DEMO: "off" })
}

async function aClosedPort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1")
  await once(server, "listening")
  const address = server.address()
  server.close()
  await once(server, "close")
  return typeof address === "object" && address ? address.port : 0
}
