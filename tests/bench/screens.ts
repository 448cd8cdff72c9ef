import { readFileSync, readdirSync } from "node:fs"
import { fetchSignedIn } from "../helpers/signed-in"
import { median, printFigure, timeMs } from "./report"

/**
 * Server time of every screen on a running, warm site, against the smallest page the same server gives in the same run.
 * `commandPid` is the start command; the peak memory of the server below it is read at the end (Linux only).
 */
export async function benchScreens(options: {
  baseUrl: string
  paths: Readonly<Record<string, string>>
  referencePath: string
  commandPid: number | undefined
  runs: number
}): Promise<void> {
  const { baseUrl, paths, referencePath, runs } = options
  const reference: number[] = []
  const times = new Map<string, number[]>()
  for (const path of [referencePath, ...Object.values(paths)])
    for (let i = 0; i < 5; i += 1) await get(baseUrl + path)
  for (let run = 0; run < runs; run += 1) {
    reference.push(await timeMs(() => get(baseUrl + referencePath)))
    for (const [name, path] of Object.entries(paths)) {
      const spent = await timeMs(() => get(baseUrl + path))
      times.set(name, [...(times.get(name) ?? []), spent])
    }
  }
  for (const [name, spent] of times)
    printFigure({
      what: `Screen ${name}`,
      value: median(spent),
      reference: median(reference),
      referenceWhat: "the not-found page",
      unit: "ms",
      limit: "under 100 ms is asked",
    })
  const peak = options.commandPid ? peakMegabytes(options.commandPid) : null
  if (peak) process.stdout.write(`Peak memory of the server process: ${peak} MB (under 1500 is asked)\n`)
}

async function get(url: string): Promise<void> {
  const response = await fetchSignedIn(url)
  await response.arrayBuffer()
  if (response.status >= 500) throw new Error(`${url} answered ${response.status}`)
}

/** The largest peak among the site's processes below the start command. */
function peakMegabytes(commandPid: number): number {
  const parents = new Map<number, number>()
  for (const name of readdirSync("/proc").filter((one) => /^\d+$/.test(one))) {
    const parent = /PPid:\s+(\d+)/.exec(statusOf(Number(name)))?.[1]
    if (parent) parents.set(Number(name), Number(parent))
  }
  const isBelow = (pid: number): boolean => {
    const parent = parents.get(pid)
    return parent !== undefined && (parent === commandPid || isBelow(parent))
  }
  const peaks = [...parents.keys()]
    .filter((pid) => isBelow(pid) && /Name:\s+(?!postgres)/.test(statusOf(pid)))
    .map((pid) => Number(/VmHWM:\s+(\d+) kB/.exec(statusOf(pid))?.[1] ?? 0))
  return Math.round(Math.max(0, ...peaks) / 1024)
}

function statusOf(pid: number): string {
  try {
    return readFileSync(`/proc/${pid}/status`, "utf8")
  } catch {
    return ""
  }
}
