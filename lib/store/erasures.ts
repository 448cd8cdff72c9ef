import "server-only"
import { z } from "zod"
import { TypedText } from "../domain/typed-text"
import { changeAndRecord } from "./audit"
import type { Actor } from "./audit-actors"
import type { Prisma, PrismaClient } from "./generated/client"
import { namesPerson } from "./person-words"

/** What is said when an erasure is asked for; both are kept for good, so they name nobody. */
export const ErasureWords = z.object({
  reason: TypedText.trim().min(10).max(500),
  basis: TypedText.trim().min(3).max(200),
})

export type Erasure = {
  id: number
  publicId: string
  reason: string
  basis: string
  askedBy: string
  askedAt: Date
  erasedAt: Date | null
  clearedAt: Date | null
}

type Client = PrismaClient | Prisma.TransactionClient

/** Notes that a person's record is to be erased. Answers its number, or why not. */
export async function requestErasure(
  client: PrismaClient,
  request: {
    publicId: string
    /** The numbers and names that the reason must not hold. */
    words: readonly string[]
    said: z.infer<typeof ErasureWords>
    by: Actor
    now: Date
  },
): Promise<{ status: "asked"; id: number } | { status: "names-person" } | { status: "asked-before" }> {
  const { publicId, words, said, by, now } = request
  if (namesPerson(`${said.reason} ${said.basis}`, words)) return { status: "names-person" }
  if (await findErasure(client, { publicId })) return { status: "asked-before" }
  const id = await changeAndRecord(
    client,
    async (transaction) => {
      const data = { publicId, ...said, askedBy: by.actorName, askedAt: now }
      return (await transaction.erasure.create({ data, select: { id: true } })).id
    },
    (made) => ({
      ...{ by, action: "record.erase-ask", object: "erasure", objectId: String(made), people: [publicId] },
      ...{ purpose: said.reason, detail: { basis: said.basis } },
    }),
  )
  return { status: "asked", id }
}

/** A person has thought better of it, while nothing has been erased. */
export async function withdrawErasure(
  client: PrismaClient,
  withdrawn: { publicId: string; by: Actor; now: Date },
): Promise<boolean> {
  const { publicId, by, now } = withdrawn
  return changeAndRecord(
    client,
    async (transaction) => {
      const open = { publicId, erasedAt: null, withdrawnAt: null }
      return (await transaction.erasure.updateMany({ where: open, data: { withdrawnAt: now } })).count > 0
    },
    (isDone) => (isDone ? { by, action: "record.erase-withdraw", people: [publicId] } : null),
  )
}

/** The request that stands, by its number or for a person; null when there is none. */
export async function findErasure(
  client: Client,
  which: { id: number } | { publicId: string },
): Promise<Erasure | null> {
  return client.erasure.findFirst({ where: { ...which, withdrawnAt: null }, select: shown })
}

/** The requests that stand, those to be carried out and those that were, oldest first. */
export async function listErasures(client: Client): Promise<Erasure[]> {
  return client.erasure.findMany({ where: { withdrawnAt: null }, orderBy: { id: "asc" }, select: shown })
}

const shown = {
  ...{ id: true, publicId: true, reason: true, basis: true, askedBy: true, askedAt: true },
  ...{ erasedAt: true, clearedAt: true },
} as const
