// Plumbhook weighs a load from a drawing, finds its centre of gravity, and says
// how it hangs: what each leg carries, whether it is stable, and which slings
// may be used. See plumbhook --help.
package main
