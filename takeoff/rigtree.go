package takeoff

import "go.yaml.in/yaml/v3"

// rigKeys are the ways to hang a load other than by legs to one hook.
var rigKeys = []key[Rigging]{
	{name: "two hooks", takes: "{head: A, tail: B, turn: {from: 0, to: 90}}", read: readTwoHooks},
}

func readRig(r *reader, n *yaml.Node, l *Load) { walk(r, n, "`rig`", rigKeys, &l.Rigging) }
