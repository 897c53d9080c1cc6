// Package report renders the results of package lift as text, as JSON, and the
// sheet as a page of HTML. It computes nothing: a total is a field of the
// result, not a sum made here. Turning SI into the units shown and rounding are
// all that happens to a figure.
//
// What a lift needs (a planning weight, a tension, a required rating) is
// rounded up, what may be borne (a rated capacity) down, and the flattest angle
// of a leg down, so that rounding never makes a lift look better than it is.
// Every angle says from where it is measured.
package report
