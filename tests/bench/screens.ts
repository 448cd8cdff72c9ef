import { readFileSync } from "node:fs"
import { median, printFigure, timeMs } from "./report"

/**
 * Server time of every screen on a running, warm site, against the smallest page the same server gives in the same run.
 * `sitePid` is the server process whose peak memory is read at the end (Linux).
 */
export async function benchScreens(options: {
  baseUrl: string
  paths: Readonly<Record<string, string>>
  referencePath: string
  sitePid: number | undefined
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
  if (options.sitePid)
    process.stdout.write(
      `Peak memory of the server process: ${peakMegabytes(options.sitePid)} MB (under 1500 is asked)\n`,
    )
}

async function get(url: string): Promise<void> {
  const response = await fetch(url)
  await response.arrayBuffer()
  if (response.status >= 500) throw new Error(`${url} answered ${response.status}`)
}

function peakMegabytes(pid: number): number {
  const line = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))
  return Math.round(Number(line?.[1] ?? 0) / 1024)
}
