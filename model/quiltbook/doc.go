// Package quiltbook reads quilts from workbooks that were filled in, and writes
// the workbook to fill in.
//
// [WriteStart] writes a workbook with a sheet each for the quilt, the fabrics
// and the cuts, with drop-down lists and notes. [Parse] and [Read] read it back,
// as any spreadsheet program saved it, into the [model.Quilt] that a quilt file
// of the same words gives, or tell every fault of it with its sheet and cell.
// Sheets and columns are found by their names, and other ones are passed over,
// as are blank rows.
//
// What people type is read as it is meant: numbers kept as numbers or as texts,
// fractions in every form that [model.ParseLength] knows, yes and no in several
// spellings. What a spreadsheet made a date of is told, with what to type.
//
// Reading goes over the parts of the archive one cell at a time
// (archive.go, workbook.go, cells.go) and unpacks only what it needs, to a
// limit. The library that writes the workbook would unpack all of it, fill rows
// up to their last cell, and pass over a sheet that breaks off, which would lose
// pieces silently.
package quiltbook
