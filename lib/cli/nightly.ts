/** On the machine's clock; when few people work. Common practice, no source. */
const hour = 2

/**
 * Runs `work` every night as long as this process lives, without keeping it alive, and answers how to stop that. What fails
 * one night is told and tried again the next.
 */
export function everyNight(work: () => Promise<void>, onFailure: (error: unknown) => void): () => void {
  let timer: NodeJS.Timeout | undefined
  const plan = () => {
    timer = setTimeout(() => void work().catch(onFailure).finally(plan), untilNextMs(new Date()))
    timer.unref()
  }
  plan()
  return () => clearTimeout(timer)
}

/** How long it is to the next night's hour, always more than nothing. */
export function untilNextMs(now: Date): number {
  const next = new Date(now)
  next.setHours(hour, 0, 0, 0)
  if (next <= now) next.setDate(next.getDate() + 1)
  return next.getTime() - now.getTime()
}
