package main

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMessagesSteerNoTerminal: the name of a file, and what stands in it, may be made
// to; figures and messages of every command are without what can't be seen.
func TestMessagesSteerNoTerminal(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no such names there")
	}
	const evil = "\x1b]0;owned\a\u202e\u009b31m\r"
	dir := t.TempDir()
	good := filepath.Join(dir, evil+"good.yaml")
	require.NoError(t, os.WriteFile(good, []byte("load: a\nunits: m\nrules: EN\nparts: [{name: b, box: 1 x 1 x 1, corner: [0, 0, 0], material: steel}]\n"), 0o666))
	bad := filepath.Join(dir, evil+"bad.yaml")
	require.NoError(t, os.WriteFile(bad, []byte(`"\e]0;owned\a": "\u202e\u009b"`+"\nload: \"\\e[31m\"\nunits: \"\\e[31m\"\nparts: [{\"\\e\": 1}]\n"), 0o666))
	list := filepath.Join(dir, evil+"list.csv")
	require.NoError(t, os.WriteFile(list, []byte("rules,EN\nmark,envelope (mm),weight (kg)\nA\u202e\u009b,1000 x 1000 x 500,900\nB\u202e,x\u202e,5\n"), 0o666))
	for _, args := range [][]string{
		{"weigh", good}, {"weigh", good, "--json"}, {"weigh", bad}, {"weigh", bad, "--json"}, {"check", good}, {"slings", good}, {"weigh", filepath.Join(dir, evil)},
		{"sheet", dir, "-o", filepath.Join(dir, evil)}, {"bid", dir}, {"bid", list}, {"bid", list, "--json"}, {"compare", list, good}, {"weigh", good, "-o", filepath.Join(dir, evil+".txt"), "--state", evil},
		{"weigh", good, "--" + evil}, {evil}, {"weigh", good, "--show", evil}, {"weigh", good, evil},
	} {
		var out, errOut bytes.Buffer
		Main(args, nil, &out, &errOut)
		for name, text := range map[string]string{"figures": out.String(), "messages": errOut.String()} {
			for _, c := range text {
				if c != '\n' && c != '\t' && !unicode.IsGraphic(c) {
					t.Errorf("%q: %U in the %s", args, c, name)
					break
				}
			}
		}
		assert.NotEmpty(t, out.String()+errOut.String(), "%q", args)
	}
}
