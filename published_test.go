package plumbhook_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/testdata/published"
	"plumbhook/testdata/published/inprint"
)

// TestPublished holds the program against the printed values that go by load files, as
// plumbhook verify does on the user's machine. With -v it prints the table.
func TestPublished(t *testing.T) {
	rows, err := lift.ReadPublished(bytes.NewReader(published.Rows))
	require.NoError(t, err)
	require.NotEmpty(t, rows)
	var lines [][]string
	for _, c := range lift.Verify(rows).Checks {
		if assert.Empty(t, c.Fault, c.Name) {
			assert.InDelta(t, c.Value, c.Got, c.Tolerance, "%s: %s (%s)", c.Name, c.Source, c.Basis)
		}
		lines = append(lines, []string{c.Name, fmt.Sprintf("%.6g", c.Value), fmt.Sprintf("%.7g", c.Got), fmt.Sprintf("%.3g", c.Tolerance), "", c.Source + " (" + c.Basis + ")"})
	}
	if testing.Verbose() {
		t.Log("\n" + inprint.Table(lines))
	}
}

// TestPublishedCanFail: a value that is off, a figure that is not there, and a table
// that is no table are told.
func TestPublishedCanFail(t *testing.T) {
	rows, err := lift.ReadPublished(bytes.NewReader(published.Rows))
	require.NoError(t, err)
	off, gone := rows[0], rows[0]
	off.Value += 2 * off.Tolerance
	gone.Figure = "weight.no_such"
	v := lift.Verify([]lift.Published{off, gone, rows[0]})
	assert.Equal(t, 2, v.Failed)
	assert.False(t, v.Checks[0].Holds)
	assert.Contains(t, v.Checks[1].Fault, "no_such")
	assert.True(t, v.Checks[2].Holds)
	for _, bad := range []string{"", "name,question\n", "name,question,load,figure,value,tolerance,source,basis\na,weigh,x,y,1,0,s,read\n",
		"name,question,load,figure,value,tolerance,source,basis\na,weigh,x,y,one,1,s,read\n", "name,question,load,figure,value,tolerance,source,basis\na,weigh,x,y,1,1,,read\n"} {
		_, err := lift.ReadPublished(bytes.NewReader([]byte(bad)))
		assert.Error(t, err, bad)
	}
}
