-- Converts a serum creatinine from umol/L to mg/dL.
-- shape: umol_l umol/L (9 to 2,652) -> DOUBLE mg/dL
-- absent: null when the value is null
-- throws: nothing
-- source: Prohaska 2022, Standard atomic weights of the elements 2021, Pure Appl Chem 94:573-600, Table 1,
--   doi:10.1515/pac-2019-0603 (creatinine C4H7N3O, 113.12 g/mol, so 1 mg/dL = 88.4 umol/L as laboratories round it)
--   [the factor read: BMC Geriatr 2021, note of a table]
-- example: creatinine_mg_dl_from_umol_l(103) = 1.1652
create or replace macro creatinine_mg_dl_from_umol_l(umol_l) as cast(umol_l as double) / 88.4;
