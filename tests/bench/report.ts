/** One measured figure beside its reference of the same run. */
export type Figure = {
  what: string
  value: number
  reference: number
  referenceWhat: string
  unit: string
  limit?: string
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  const middle = Math.floor(sorted.length / 2)
  const upper = sorted[middle] ?? Number.NaN
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2
}

export function printFigure(figure: Figure): void {
  const { what, value, reference, referenceWhat, unit, limit } = figure
  const ratio = (value / reference).toFixed(2)
  process.stdout.write(
    `${what}: ${value.toFixed(0)} ${unit}; ${referenceWhat}: ${reference.toFixed(0)} ${unit}; ratio ${ratio}${limit ? ` (${limit})` : ""}\n`,
  )
}

export async function timeMs(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now()
  await work()
  return performance.now() - start
}
