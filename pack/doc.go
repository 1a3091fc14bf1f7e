// Package pack lays the pieces of one fabric on strips cut from selvage to
// selvage, in the least length of cloth, and proves how short any plan can be.
//
// # The problem
//
// A Problem is a usable width and items, each so many pieces of one size. A
// Plan is strips across the whole width, each cut into segments, each segment
// into a stack of pieces; its length is the sum of the strip heights. In a
// plain plan each size has strips of its own; in a shared plan a strip holds
// any pieces that are no higher than it (two-stage level packing; Lodi,
// Martello and Vigo, Models and bounds for two-dimensional level packing
// problems, Journal of Combinatorial Optimization 8, 2004); in a nested plan
// a segment may hold several pieces one above another (three stages). Solve
// finds a plan of least purchase, then least length, then few strips and few
// layouts, and Verify checks it without any code of the search.
//
// # The method
//
// The sizes become whole numbers on the coarsest grid that they share. The
// length of a plan is settled by how many strips it has from each height up,
// so the search is over these numbers, and layouts serve to tell which of them
// can hold the demand. For a range of numbers that is the joint program: the
// most of the demand that strips of some length can hold, over strip layouts
// found by column generation (Gilmore and Gomory, Operations Research 9, 1961,
// and 13, 1965). GLPK solves it over the layouts known so far, and dynamic
// programs price in better ones. Its prices make a cutting plane for the
// numbers (as the decomposition of Benders does, Numerische Mathematik 4, 1962).
// Since these are whole, the mixed-integer roundings of a plane hold too
// (Nemhauser and Wolsey, Integer and Combinatorial Optimization, 1988), and they
// do much of the work: they say, for one, that strips of a height and more are
// at least so many, rounded up. They count strips by their height, so pricing is
// as easy as before (robust cuts; Fukasawa and others, Robust branch-and-cut-and-
// price for the capacitated vehicle routing problem, Mathematical Programming
// 106, 2006). Planes and layouts are kept for all questions that follow. Where
// the numbers are given, the fit says the same of just these.
//
// The search asks for one target length after another whether any plan is as
// short, and skips lengths that strips cannot add up to: first the longest
// length that costs the same purchase as the bound, so that what to buy is
// settled first. A question is a branch and bound over the numbers, branching
// by pseudo-costs, that goes first to where the strips have room to spare: by what
// they can hold beyond the demand, a little more of every size. A factor for all of
// the demand would mostly tell nothing, as one size that fills its strips exactly,
// or one rounded plane, holds it at 1.
// Targets that take long are put aside while shorter plans are looked for above
// them. What the purchase asks for is then asked from the beginning, too, again and
// again: a plan that first splits do not lead to soon is seldom found by going on
// (restarts; Gomes, Selman, Crato and Kautz, Heavy-tailed phenomena in satisfiability
// and constraint satisfaction problems, Journal of Automated Reasoning 24, 2000).
//
// Of many sizes hardly a question is answered. There the bound of shared plans is
// raised by a branch and bound of its own, over the least length that each region
// takes: a program of it takes a tenth of what one for room does, and what one shows
// counts for every target. The number to branch on is found by trying some
// (reliability branching; Achterberg, Koch and Martin, Branching rules revisited,
// Operations Research Letters 33, 2005).
//
// Whole numbers that no plane cuts off mostly hold a plan, which a dive finds:
// it fixes strips one by one and prices layouts for what is left, but never
// leaves what the fit can hold; when it is stuck it takes some strips back. If
// they hold none, that is proven over the list of every layout that could
// matter, by reduced cost (Baldacci, Christofides and Mingozzi, 2008): where the
// strips hold the demand by a hair's breadth there are few. Prices of the scarcest
// sizes say nothing of the rest, so several sets are used at once, each for the
// scarcest sizes that those before it leave out. Lists that take too long give way
// to branch and price, on the number of pieces laid one way in the strips from a
// height up (branching on sums of original variables; Vanderbeck, Operations
// Research 48, 2000).
//
// Where a region has so little to spare that such a list can be made, all of it is
// decided at once, at best the whole question, by the prices of its joint program:
// those of the most that it has room for, and those of the least length that it
// takes, which say something of sizes that the others find worthless. Of layouts
// that make the same pieces only the lowest is listed, and none that has room for
// one more piece; two stacks are not put side by side where two others make the
// same. Nor is one listed in which a larger piece has room in the place of one or two of
// its own, as a decision may cut pieces down to smaller ones, which shrinks most lists to a
// small part. Longer pieces are looked at first, so that it is settled early how many of a
// size there are, and how much of the width may be left beside them. As it may be made in
// vain, such a list has a small part of the work; but half of what has been done so far may
// go into that of a whole purchase, and a quarter into that of the least length, if random
// paths tell that it takes no more (Knuth, Estimating the efficiency of backtrack programs,
// Mathematics of Computation 29, 1975). A list may have some hundred thousand layouts:
// the program over it has only those that matter, and calls others by its duals.
// Mixed-integer roundings of sums of the rows (Gomory, An algorithm for the mixed
// integer problem, 1960) raise the least length, what is to spare then tells which
// layouts can matter yet, mostly very few, and over these the rows are rounded again.
// Each program and each branch begins at the basis that it comes from. The relaxation of
// each is also rounded at random, once, for the beam to plan the rest: where strips from
// each height up are whole, and all rows are rounded, such a rest often has just the room
// that it needs.
// Where there are too many, nested plans are looked for, and often found or ruled out,
// over those that lack only a part of what there is to spare, then a greater part, at
// last all. Most of the hardest are found over samples, some hundred of those that lack
// next to nothing, or more where these are soon all, beside all that are known: such a
// decision takes little, and each of its boxes is rounded several times.
//
// First plans come from sequential value correction (Belov and Scheithauer,
// 2006) and from a dive, which rounds the relaxation of the whole problem step by
// step. The best plan is cut anew in part, again and again, mostly by a dive for a
// few strips as a problem of their own. Which strips they are matters most: at the
// prices of the first relaxation most strips of a good plan lose nothing, and a dozen
// or two lose all that there is to gain, so these are drawn far more often, and so are
// strips of the sizes that those drawn hold: of few sizes, many strips can be put
// together anew. The search goes on from other strips that are as long together, too,
// so that what is lost moves about the plan until losses meet in a few strips that can
// do without; of many sizes, at first from plans a little longer than the best, too.
//
// Where the relaxation wastes next to nothing, and for nested strips, of which it
// wastes little, nearly every strip must be filled to the brim, and a beam search
// does better (Ow and Morton, 1988): it fills strip after strip and goes on from the
// partial plans that have wasted least. Most often it follows a rounding: the
// relaxation is rounded at random, that of the rest again, and the last few strips
// are left to the beam. Strips of a relaxation waste little, so the rest has more to
// spare than any part of a plan, and what pieces are worth at the prices of the
// relaxation tells early when a partial plan has lost too much of that.
//
// # What is exact
//
// GLPK works in floating point, and none of what it says is believed. Its duals
// are rounded to whole prices, and the dynamic programs in whole numbers say
// what layouts are worth at those prices: a plane holds for any prices. A
// region or a branch is closed by adding up its rows in whole numbers, with
// multipliers that the duals suggest; the sum holds for any multipliers. A plan
// is checked by Verify before it is returned.
//
// # The same every time
//
// A search is bounded by its work, counted in steps, and its random choices
// come from a fixed seed: the same problem and options give the same plan on
// every machine, in any order of the items, unless a time limit or the context
// cuts in first.
package pack
