-- Converts a serum creatinine from mg/dL to umol/L.
-- shape: mg_dl mg/dL (0.1 to 30) -> DOUBLE umol/L
-- absent: null when the value is null
-- throws: nothing
-- source: Prohaska 2022, Standard atomic weights of the elements 2021, Pure Appl Chem 94:573-600, Table 1,
--   doi:10.1515/pac-2019-0603 (creatinine C4H7N3O, 113.12 g/mol, so 1 mg/dL = 88.4 umol/L as laboratories round it)
--   [the factor read: BMC Geriatr 2021, note of a table]
-- example: creatinine_umol_l_from_mg_dl(1.2) = 106.08
create or replace macro creatinine_umol_l_from_mg_dl(mg_dl) as cast(mg_dl as double) * 88.4;
