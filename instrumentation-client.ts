import { config } from "zod"

// Runs before the site's other scripts: zod would try whether it may make code as it goes, which the content security
// policy forbids and reports.
config({ jitless: true })
