import { spawn } from "node:child_process"
import path from "node:path"

type Site = { snapshotUrl: string; dataDir: string }

declare global {
  var filtrateRefresh: { isRunning: boolean; isWantedAgain: boolean } | undefined
}

/**
 * Computes the figures anew in a process of its own; the screen learns from the record of builds how it goes. Asked while
 * one is running, another follows it, so that what was changed last is in the figures.
 */
export function startRefresh(site: Site): void {
  const state = (globalThis.filtrateRefresh ??= { isRunning: false, isWantedAgain: false })
  if (state.isRunning) {
    state.isWantedAgain = true
    return
  }
  state.isRunning = true
  const command = path.join(process.cwd(), "lib", "cli", "filtrate.mjs")
  const child = spawn(process.execPath, [command, "refresh"], {
    env: { ...process.env, DATABASE_URL: site.snapshotUrl, FILTRATE_DATA: site.dataDir },
    stdio: "ignore",
  })
  const end = () => {
    if (!state.isRunning) return
    state.isRunning = false
    if (!state.isWantedAgain) return
    state.isWantedAgain = false
    startRefresh(site)
  }
  child.once("error", end)
  child.once("exit", end)
}

/** Whether this site is just computing the figures. */
export function isRefreshing(): boolean {
  return globalThis.filtrateRefresh?.isRunning ?? false
}
