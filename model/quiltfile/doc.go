// Package quiltfile reads and writes quilt files: the fabrics and the cutting
// list of one quilt, in YAML.
//
//	title: Harbour steps
//	unit: in                      # in or cm: what bare numbers are in
//	ruler: 1/8                    # every cut size sits on this mark
//	fabric_defaults:
//	  usable_widths: [40, 42]
//	  sold_by: 1/8 yd
//	  straighten: 0               # lost squaring up one cut of cloth
//	  shrinkage: 0%
//	fabrics:
//	  ink: {name: Ink solid}
//	  oat: {name: Oat print, one_way: true, sold_by: 1/4 yd}
//	cuts:
//	- {name: A, fabric: ink, size: 2 1/2 x 4 1/2, count: 96, use: star points}
//	- {name: B, fabric: ink, size: 2 7/8, count: 40, halve: once}
//	- {name: C, fabric: oat, size: 6 1/2 x 60 1/2, count: 2, grain: lengthwise}
//
// [Read] and [Parse] report every fault of a file at once, as [Errors] with
// line and column: faults of the YAML, of single values, and of the rules that
// [model.Quilt.CutList] keeps. [Write] writes the form that Parse reads back
// to an equal quilt. [Schema] describes the form to editors.
//
// Numbers are read as they are written, never by way of a floating-point
// number. Aliases and tags of YAML are not read: a file that needs none is
// easier to follow, and one that has none cannot grow when it is read.
package quiltfile
