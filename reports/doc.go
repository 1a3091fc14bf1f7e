// Package reports writes what yardage has worked out: as text for the
// terminal, as JSON for programs and as a workbook. It formats only; every
// number arrives computed.
//
// All writers read one set of rows (see rows.go), so that they cannot
// disagree.
package reports
