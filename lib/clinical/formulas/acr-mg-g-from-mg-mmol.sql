-- Converts an ACR or PCR from mg/mmol to mg/g, for showing and for equations; a category is cut in the reported unit.
-- shape: mg_mmol mg/mmol (0 or more) -> DOUBLE mg/g
-- absent: null when the value is null
-- throws: nothing
-- source: KDIGO 2012, Clinical practice guideline for the evaluation and management of CKD, Kidney Int Suppl 3:1-150, Table 7 note (1 g creatinine = 8.84 mmol), doi:10.1038/kisup.2012.73
--   [the factor by arithmetic: 1 g creatinine / 113.12 g/mol = 8.84 mmol]
-- example: acr_mg_g_from_mg_mmol(70) = 618.8
create or replace macro acr_mg_g_from_mg_mmol(mg_mmol) as cast(mg_mmol as double) * 8.84;
