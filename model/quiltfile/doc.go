// Package quiltfile reads and writes quilt files: the fabrics of one quilt, and
// its design or its cutting list, in YAML. A cutting list:
//
//	title: Harbour steps
//	unit: in                      # in or cm: what bare numbers are in
//	ruler: 1/8                    # every cut size sits on this mark
//	fabric_defaults:
//	  usable_widths: [40, 42]
//	  sold_by: 1/8 yd
//	  straighten: 0               # lost squaring up one cut of cloth
//	  shrinkage: 0%
//	  price: 12.50                # of a yard
//	fabrics:
//	  ink: {name: Ink solid}
//	  oat: {name: Oat print, one_way: true, sold_by: 1/4 yd}
//	cuts:
//	- {name: A, fabric: ink, size: 2 1/2 x 4 1/2, count: 96, use: star points}
//	- {name: B, fabric: ink, size: 2 7/8, count: 40, halve: once}
//	- {name: C, fabric: oat, size: 6 1/2 x 60 1/2, count: 2, grain: lengthwise}
//
// A design has finished sizes, of units, of blocks, of borders:
//
//	units:
//	  wing: {half_square: 3, fabrics: [oat, ink]}
//	blocks:
//	  ferry: {finished: 6, rows: [[wing, wing 90], [wing 270, wing 180]]}
//	setting: {rows: 4, columns: 3}
//	borders: [{width: 2, fabric: ink}]
//
// [ReadDesign] and [ParseDesign] read both kinds, [Read] and [Parse] cutting
// lists alone. They report every fault of a file at once, as [Errors] with line
// and column: faults of the YAML, of single values, and of the rules that
// [model.Quilt.CutList] and [design.Design.Work] keep. [Write] and
// [WriteDesign] write the form that is read back to an equal quilt. [Schema]
// describes the form to editors.
//
// Each part of a file has a table of its keys (keys.go, design_keys.go,
// unit_keys.go, block_keys.go, setting_keys.go), of which fields.go has the
// common kinds. What stands where is kept by the model's paths, so that a fault
// of the rules finds its line.
//
// Numbers are read as they are written, never by way of a floating-point
// number. Aliases and tags of YAML are not read: a file that needs none is
// easier to follow, and one that has none cannot grow when it is read.
package quiltfile
