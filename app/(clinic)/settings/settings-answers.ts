import type { Settings } from "../../../lib/domain/settings"
import { isRefreshing } from "../../../lib/jobs/refresh-process"
import type { PrismaClient } from "../../../lib/store/generated/client"
import { listSettingChanges, readSettings, type SettingChange } from "../../../lib/store/settings"
import { findLatestBuild, type BuildEntry } from "../../../lib/store/snapshot-builds"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { peopledSnapshot } from "../snapshot"

export type SettingsAnswers = {
  /** As on record; the figures follow when they have been computed anew. */
  settings: Settings
  changes: SettingChange[]
  build: BuildEntry | null
  isRefreshing: boolean
  /** Null while nobody is in it: then there is no history to show a choice on. */
  snapshot: SnapshotMeta | null
}

/** Everything the Settings screen tells but what a choice would make of the history. */
export async function settingsAnswers(client: PrismaClient): Promise<SettingsAnswers> {
  const [settings, changes, build, snapshot] = await Promise.all([
    readSettings(client),
    listSettingChanges(client),
    findLatestBuild(client, new Date()),
    peopledSnapshot(),
  ])
  return { settings, changes, build, isRefreshing: isRefreshing() || build?.status === "running", snapshot }
}
