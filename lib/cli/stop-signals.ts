type Stop = (exitCode: number) => Promise<void>

const exitCodes = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const

let current: Stop = async () => {}
let isAsked = false

for (const [signal, exitCode] of Object.entries(exitCodes)) process.on(signal, () => stop(exitCode))
// The process that started this command is gone: nobody is left to stop it.
process.on("disconnect", () => stop(exitCodes.SIGTERM))
// Listening must not keep a finished command alive.
process.channel?.unref()

/** Sets what happens on Ctrl-C, a request to end, or the loss of the terminal. The latest one set counts, and it runs once. */
export function onStop(stop: Stop): void {
  current = stop
}

/** Once true, failures of the work under way are only its interruption; the stop ends the process. */
export function isStopping(): boolean {
  return isAsked
}

function stop(exitCode: number): void {
  if (isAsked) return
  isAsked = true
  current(exitCode).catch((error: unknown) => {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`)
    process.exit(1)
  })
}
