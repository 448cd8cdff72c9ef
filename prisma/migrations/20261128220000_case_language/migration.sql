-- The language of whoever is to be contacted, by the latest look, so that the list can be narrowed to one.

ALTER TABLE "outreach_cases" ADD COLUMN "language" TEXT;
