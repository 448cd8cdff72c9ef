import "server-only"
import type { PrismaClient } from "./generated/client"

/** A way somebody narrows the list, under their name for it. */
export type SavedView = { id: number; name: string; search: string }

/** Of one account; more are no help to anybody (common practice, no source). */
export const mostViews = 20

/** Somebody's own, by name. */
export async function listViews(client: PrismaClient, userId: string): Promise<SavedView[]> {
  return client.outreachView.findMany({
    where: { userId },
    orderBy: [{ name: "asc" }, { id: "asc" }],
    select: { id: true, name: true, search: true },
  })
}

/** Keeps a view; another of that name, or one too many, is not kept. */
export async function saveView(
  client: PrismaClient,
  view: { userId: string; name: string; search: string; now: Date },
): Promise<"saved" | "taken" | "too many"> {
  const { userId, name, search, now } = view
  if ((await client.outreachView.count({ where: { userId } })) >= mostViews) return "too many"
  const made = await client.outreachView.createMany({
    data: [{ userId, name, search, createdAt: now }],
    skipDuplicates: true,
  })
  return made.count === 1 ? "saved" : "taken"
}

/** Removes one of somebody's own; another's stays. */
export async function removeView(client: PrismaClient, which: { id: number; userId: string }): Promise<void> {
  await client.outreachView.deleteMany({ where: which })
}
