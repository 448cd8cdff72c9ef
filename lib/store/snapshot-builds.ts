import "server-only"
import type { PrismaClient } from "./generated/client"

/** How the latest build of the snapshot went. */
export type BuildEntry = {
  status: "running" | "done" | "failed"
  message: string | null
  startedAt: Date
  finishedAt: Date | null
}

/** A build that says nothing for so long has lost its process. */
const longestBuildMs = 30 * 60_000

export async function findLatestBuild(client: PrismaClient, now: Date): Promise<BuildEntry | null> {
  const build = await client.snapshotBuild.findFirst({ orderBy: { id: "desc" } })
  if (!build) return null
  const { message, startedAt, finishedAt } = build
  if (build.status === "done") return { status: "done", message: null, startedAt, finishedAt }
  if (build.status === "failed") return { status: "failed", message, startedAt, finishedAt }
  const isLost = now.getTime() - startedAt.getTime() > longestBuildMs
  return isLost
    ? { status: "failed", message: "The build was stopped before its end.", startedAt, finishedAt: null }
    : { status: "running", message: null, startedAt, finishedAt: null }
}
