import { fileURLToPath } from "node:url"

/** The project's own folder, wherever the command is called from. */
export const projectDir = fileURLToPath(new URL("../..", import.meta.url))

/** What Node needs to run one of our TypeScript files as server code. */
export const serverFlags = ["--conditions=react-server", "--import", import.meta.resolve("tsx")]
