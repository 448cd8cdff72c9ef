// A process that opens the embedded database, says where, and uses it until its input ends or it is killed.
import { openEmbedded } from "../../lib/store/embedded"

const database = await openEmbedded({ dataDir: process.argv[2] ?? "" })
process.stdout.write(`${database.url}\n`)
process.stdin.resume()
process.stdin.on("end", () => void database.close())
