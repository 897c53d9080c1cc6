package main

import (
	"flag"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite what the scripts expect; look at the difference")

func TestMain(m *testing.M) { testscript.Main(m, map[string]func(){"plumbhook": main}) }

// TestScripts runs the command as a user types it. The name of a script begins
// with the command that it is about.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script", UpdateScripts: *update, RequireExplicitExec: true, RequireUniqueNames: true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("NO_COLOR", "")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits, "stl": writeSTL, "json": hasKeys, "narrow": narrowLines, "lines": countLines,
		},
	})
}
