package yardage

import (
	"time"

	"crossgrain/model"
	"crossgrain/pack"
)

// Purchase is a length of cloth as it is asked for in the shop.
type Purchase struct {
	Length model.Length
	Text   string // "1 3/4 yd", "160 cm"
}

// Requirement is what one fabric needs at one usable width.
type Requirement struct {
	Width  model.Length
	Result pack.Result  // the plan in the style asked for
	Need   model.Length // plan length, grown for shrinkage, plus straightening
	Buy    Purchase
	// AtLeast is the purchase that the plan's bound rounds up to: no plan of
	// the style buys less. It equals Buy where BuyProven.
	AtLeast   Purchase
	BuyProven bool
	// Cost is what Buy costs at the fabric's price; 0 where that is not known.
	Cost     model.Money
	Plain    pack.Plan // the way by hand: each size on strips of its own
	PlainBuy Purchase
	Saved    Purchase // PlainBuy less Buy
	// UsedArea of CutArea is the share of the plan's strips that ends up in pieces.
	UsedArea, CutArea model.Area
}

// FabricRequirement is one fabric's cut list with what it needs at each of
// its usable widths, in ascending order of width.
type FabricRequirement struct {
	model.FabricCuts
	Widths []Requirement
}

// Quilt is what to buy for a whole cut list; pack.Placement.Item indexes what
// is cut of the fabric at the plan's width, its PiecesAt.
type Quilt struct {
	Title   string
	Unit    model.Unit
	Ruler   model.Length
	Style   pack.Style
	Fabrics []FabricRequirement
}

// Options say how to plan.
type Options struct {
	Style pack.Style
	// TimeLimit is the most that the quilt may take; zero is none.
	TimeLimit time.Duration
	// Work bounds all searches together, in steps: they share it by need. Zero
	// is pack.WorkPerSecond for each second of the time limit, or
	// pack.DefaultWork for each search without one.
	Work int64
	// Progress, if set, is told how the searches stand. It is called by one of
	// them at a time, though several run at once, and has no influence on them.
	Progress func(Progress)
}

// Progress is how the search for one fabric at one usable width stands.
type Progress struct {
	Fabric string // its ID
	Width  model.Length
	// Number counts the fabrics and widths from 1, in the order of the list;
	// Total is how many there are.
	Number, Total int
	Search        pack.Progress
}
