-- Converts an ACR or PCR from mg/g to mg/mmol, for showing; a category is cut in the reported unit.
-- shape: mg_g mg/g (0 or more) -> DOUBLE mg/mmol
-- absent: null when the value is null
-- throws: nothing
-- source: KDIGO 2012, Clinical practice guideline for the evaluation and management of CKD, Kidney Int Suppl 3:1-150, Table 7 note (1 g creatinine = 8.84 mmol), doi:10.1038/kisup.2012.73
--   [the factor by arithmetic: 1 g creatinine / 113.12 g/mol = 8.84 mmol]
-- example: acr_mg_mmol_from_mg_g(300) = 33.937
create or replace macro acr_mg_mmol_from_mg_g(mg_g) as cast(mg_g as double) / 8.84;
