// Package lift answers the planner's questions, one function a question:
// [Check], [Weigh], [Picks], [Legs], [Slings], [Sheet] and [Bid]. It joins the
// take-off, the statics and the slings, and holds the results that every
// output shares. It formats nothing: report does.
//
// Results are in SI with the unit in the name of the key, as the JSON output
// has them.
package lift
