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
// master problem chooses how many strips to cut of each layout. Its linear
// relaxation is solved by column generation (Gilmore and Gomory, Operations
// Research 9, 1961, and 13, 1965): GLPK solves the relaxation over the layouts
// known so far, and dynamic programs price in better ones.
//
// The length of a plan is settled by how many strips it has of each height.
// So the search branches on the number of strips from a height up, a sum of
// variables that the pricing problem sees only as another cost of that
// height. When those numbers are whole, it branches on the number of pieces
// laid one way in the strips from a height up: a sum that the pricing problem
// sees as another worth of a piece (branching on sums of original variables;
// Vanderbeck, On Dantzig-Wolfe decomposition in integer programming,
// Operations Research 48, 2000). It asks for one target length after another,
// from the bound upwards, whether any plan is as short, and skips lengths that
// strips cannot add up to. The first target is the longest length that costs
// the same purchase as the bound: what to buy is settled first.
//
// A node whose numbers of strips are whole is decided, if it can be, over the
// list of every layout that could matter there, by reduced cost (Baldacci,
// Christofides and Mingozzi, 2008). The prices of such a node say nothing as
// long as its strips have room to spare, and then every layout could matter.
// The prices of a demand a few per cent larger, that the strips cannot hold,
// cut the list from millions to tens.
//
// Plans come from diving: whole strips of the relaxation are fixed and the
// rest is solved again; at every step what is left is also filled by
// sequential value correction (Belov and Scheithauer, 2006). Nested plans are
// besides cut anew in part, again and again.
//
// # What is exact
//
// GLPK works in floating point, and none of what it says is believed. A bound
// comes from the duals rounded to whole prices, and the dynamic programs in
// whole numbers say what layouts are worth at those prices; that bound holds
// for any prices. Branches are closed by such bounds alone. A plan is checked
// by Verify before it is returned.
//
// # The same every time
//
// A search is bounded by its work, counted in steps, and its random choices
// come from a fixed seed: the same problem and options give the same plan on
// every machine, in any order of the items, unless a time limit or the context
// cuts in first.
package pack
