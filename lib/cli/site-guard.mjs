// Loaded into the site before Next: the site must not outlive the command that started it, whatever ended that.
import { readFileSync } from "node:fs"

process.once("disconnect", () => {
  // SIGTERM asks Postgres to end once the last of its users has left, such as an import that still runs.
  const pidFile = process.env.FILTRATE_POSTGRES_PID_FILE
  if (pidFile) signalQuietly(postgresPid(pidFile), "SIGTERM")
  setTimeout(() => process.exit(1), 5000).unref()
  process.kill(process.pid, "SIGTERM")
})
// The development server forks a worker that waits for its first message: there the channel is what keeps it alive.
if (!process.env.NEXT_PRIVATE_WORKER) process.channel?.unref()

function postgresPid(file) {
  try {
    return Number(readFileSync(file, "utf8").split("\n")[0])
  } catch {
    return 0
  }
}

function signalQuietly(pid, signal) {
  try {
    if (pid > 1) process.kill(pid, signal)
  } catch {
    // It has ended already.
  }
}
