#!/usr/bin/env node
// Starts the command in a Node that reads TypeScript and takes modules as server code.
import { spawn } from "node:child_process"
import { readFileSync } from "node:fs"
import { constants } from "node:os"
import { fileURLToPath } from "node:url"

const flags = ["--conditions=react-server", "--import", import.meta.resolve("tsx")]
const main = fileURLToPath(new URL("./main.ts", import.meta.url))
const env = {
  ...process.env,
  TSX_TSCONFIG_PATH: fileURLToPath(new URL("../../tsconfig.json", import.meta.url)),
}

// Over the channel the command learns that this process is gone, even after a kill -9.
const child = spawn(process.execPath, [...flags, main, ...process.argv.slice(2)], {
  env,
  stdio: ["inherit", "inherit", "inherit", "ipc"],
})
child.on("error", (error) => {
  console.error(`filtrate: ${error.message}`)
  process.exit(1)
})
child.on("exit", (code, signal) =>
  process.exit(signal ? 128 + (constants.signals[signal] ?? 0) : (code ?? 1)),
)
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, () => child.kill(signal))

// npm hands no signal down when it is killed outright: watch it, and the shell between.
const watched = [process.ppid, npmAbove(process.ppid)].filter((pid) => pid > 1)
if (process.env.npm_lifecycle_event && watched.length > 0) {
  setInterval(() => watched.every(isAlive) || child.kill("SIGTERM"), 500).unref()
}

function npmAbove(pid) {
  for (let above = pid; above > 1;) {
    const stat = readStat(above)
    if (!stat) return 0
    if (stat.name.startsWith("npm")) return above
    above = stat.parent
  }
  return 0
}

function isAlive(pid) {
  try {
    process.kill(pid, 0)
    return readStat(pid)?.state !== "Z"
  } catch {
    return false
  }
}

function readStat(pid) {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, "utf8")
    const end = text.lastIndexOf(")")
    const [state, parent] = text.slice(end + 2).split(" ")
    return { name: text.slice(text.indexOf("(") + 1, end), state, parent: Number(parent) }
  } catch {
    return null
  }
}
