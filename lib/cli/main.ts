import { Command, CommanderError } from "commander"
import { AppError, exitCodeOf } from "../errors"
import { closeAllDatabases } from "../store/embedded"
import { say } from "./say"
import { isStopping, onStop } from "./stop-signals"

type CommandFile = { register: (program: Command) => void }

// Read only when asked for: most commands need the analytical engine, which takes a moment to load.
const commands: Record<string, () => Promise<CommandFile>> = {
  start: () => import("./start"),
  import: () => import("./import"),
  refresh: () => import("./refresh"),
  measures: () => import("./measures"),
  patients: () => import("./patients"),
  export: () => import("./export"),
  report: () => import("./report"),
  outreach: () => import("./outreach"),
  months: () => import("./months"),
  settings: () => import("./settings"),
  audit: () => import("./audit"),
  users: () => import("./users"),
  deidentify: () => import("./deidentify"),
  erase: () => import("./erase"),
  prune: () => import("./prune"),
  "export-patient": () => import("./export-patient"),
}

async function main(args: string[]): Promise<number> {
  const program = new Command("filtrate")
    .description("The whole-clinic view for a kidney clinic.")
    .exitOverride()
    .showHelpAfterError("(filtrate --help lists the commands)")
  const asked = Object.entries(commands).filter(([name]) => args[0] === name)
  for (const [, load] of asked.length > 0 ? asked : Object.entries(commands)) {
    const file = await load()
    file.register(program)
  }
  try {
    await program.parseAsync(args, { from: "user" })
    if (isStopping()) await theStop()
    return 0
  } catch (error) {
    if (isStopping()) await theStop()
    return report(error)
  }
}

/** A stop under way ends the process by itself, in its own time. */
function theStop(): Promise<never> {
  return new Promise(() => {})
}

function report(error: unknown): number {
  // Commander has said what it had to say by itself.
  if (error instanceof CommanderError) return error.exitCode
  if (error instanceof AppError) say(error.personMessage)
  else if (isDiskFull(error)) say("The disk is full. Make room and try again; nothing was lost.")
  else say(error instanceof Error ? `Unexpected failure. ${error.stack ?? error.message}` : String(error))
  return exitCodeOf(error)
}

/** As the system says it, or as Postgres does (53100, disk_full). */
function isDiskFull(error: unknown): boolean {
  return error instanceof Error && "code" in error && (error.code === "ENOSPC" || error.code === "53100")
}

// A reader such as `head` may close the pipe early: what is left has nowhere to go, and that is no failure.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error
  })
}

// While a stop is under way connections break off wherever they stand; that is no failure of the command.
process.on("uncaughtException", (error) => {
  if (!isStopping()) process.exit(report(error))
})

onStop(async (exitCode) => {
  await closeAllDatabases()
  process.exit(exitCode)
})

process.exit(await main(process.argv.slice(2)))
