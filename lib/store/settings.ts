import "server-only"
import { z } from "zod"
import { proposeSettings, type SettingProblem } from "../domain/setting-proposal"
import { Settings, type SettingKey } from "../domain/settings"
import { record } from "./audit"
import type { Actor } from "./audit-actors"
import { Prisma, type PrismaClient } from "./generated/client"

const Values = z.record(z.string(), z.union([z.string(), z.number(), z.null()]))

/** One change of settings as it was made: by whom, why, and the values before and after. */
export type SettingChange = {
  id: number
  madeAt: Date
  origin: "site" | "command"
  /** The person's name, or for a command the user of the operating system; null for a change from before anybody signed in. */
  madeBy: string | null
  reason: string
  before: z.infer<typeof Values>
  after: z.infer<typeof Values>
}

export type SavedSettings =
  | { status: "saved"; id: number; changed: SettingKey[]; settings: Settings }
  | { status: "unchanged" }
  | { status: "refused"; problems: SettingProblem[] }

/** The clinic's settings as they stand on record; what was never set stands at its default. */
export async function readSettings(client: PrismaClient | Prisma.TransactionClient): Promise<Settings> {
  const rows = await client.setting.findMany()
  return Settings.parse(Object.fromEntries(rows.map(({ key, value }) => [key, value])))
}

/** Puts values in place of those on record, with who and why; two who save at once come one after the other. */
export async function saveSettings(
  client: PrismaClient,
  change: {
    texts: Readonly<Partial<Record<SettingKey, string>>>
    by: Actor
    reason: string
    now: Date
  },
): Promise<SavedSettings> {
  const { texts, by, reason, now } = change
  return client.$transaction(async (transaction) => {
    await transaction.$queryRaw`select id from clinics where id = 1 for update`
    const current = await readSettings(transaction)
    const { settings, changed, problems } = proposeSettings(current, texts)
    if (problems.length > 0) return { status: "refused", problems }
    if (changed.length === 0) return { status: "unchanged" }
    for (const key of changed) {
      const value = toJson(settings[key])
      await transaction.setting.upsert({
        where: { key },
        create: { key, value, updatedAt: now },
        update: { value, updatedAt: now },
      })
    }
    const of = (source: Settings) => Object.fromEntries(changed.map((key) => [key, source[key]]))
    const { id } = await transaction.settingChange.create({
      data: {
        ...{ madeAt: now, origin: by.origin, madeBy: by.actorName, reason },
        ...{ before: of(current), after: of(settings) },
      },
    })
    await record(transaction, {
      ...{ by, action: "settings.change", object: "setting change", objectId: String(id), purpose: reason },
      detail: of(settings),
    })
    return { status: "saved", id, changed, settings }
  })
}

/** The changes of settings, latest first. */
export async function listSettingChanges(client: PrismaClient): Promise<SettingChange[]> {
  const rows = await client.settingChange.findMany({ orderBy: { id: "desc" } })
  return rows.map(({ origin, before, after, ...rest }) => ({
    ...rest,
    origin: z.enum(["site", "command"]).parse(origin),
    before: Values.parse(before),
    after: Values.parse(after),
  }))
}

/** A JSON column takes null only in Prisma's own word for it. */
function toJson(value: Settings[SettingKey]): Prisma.InputJsonValue | typeof Prisma.JsonNull {
  return value === null ? Prisma.JsonNull : value
}
