import { createServer } from "node:net"
import { setTimeout as delay } from "node:timers/promises"
import { AppError } from "../errors"

/**
 * Throws `port-taken` unless the site can listen there; asked before any long work.
 * `patienceMs` is for the site of a start that was killed, which ends by itself within seconds.
 */
export async function ensurePortIsFree(port: number, patienceMs: number): Promise<void> {
  const until = Date.now() + patienceMs
  let code = await whyNotFree(port)
  while (code === "EADDRINUSE" && Date.now() < until) {
    await delay(100)
    code = await whyNotFree(port)
  }
  if (code === null) return
  const reason = code === "EADDRINUSE" ? "is taken by another program" : `cannot be used (${code})`
  const other = port === 3000 ? 3001 : 3000
  throw new AppError(
    "port-taken",
    `Port ${port} ${reason}. Choose another with the variable PORT, for example: PORT=${other} npm start`,
  )
}

async function whyNotFree(port: number): Promise<string | null> {
  return (await listenError(port, "127.0.0.1")) ?? (await takenOnIPv6(port))
}

/** Browsers try ::1 first for `localhost`: another program there would answer in our place. */
async function takenOnIPv6(port: number): Promise<string | null> {
  const code = await listenError(port, "::1")
  return code === "EADDRINUSE" ? code : null
}

function listenError(port: number, host: string): Promise<string | null> {
  return new Promise((resolve) => {
    const probe = createServer()
    probe.once("error", (error: NodeJS.ErrnoException) => resolve(error.code ?? error.message))
    probe.listen(port, host, () => probe.close(() => resolve(null)))
  })
}
