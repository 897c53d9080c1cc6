package takeoff

import "go.yaml.in/yaml/v3"

// rigKeys are the ways to rig a load other than by legs straight to one hook.
var rigKeys = []key[Rigging]{
	{name: "bar", takes: aBar, read: readTopBar},
	{name: "two hooks", takes: "{head: A, tail: B, turn: {from: 0, to: 90}}", read: readTwoHooks},
}

func readRig(r *reader, n *yaml.Node, l *Load) {
	if walk(r, n, "`rig`", rigKeys, &l.Rigging) && l.Rigging.Bar != nil && l.Rigging.TwoHooks != nil {
		r.bad(n, "a `bar` and `two hooks` in one file: bars under two hooks are not worked out", "keep one of the two")
	}
}
