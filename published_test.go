package plumbhook_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/testdata/published"
)

// TestPublished holds the program against the printed values of testdata/published.
// With -v it prints each, with its source.
func TestPublished(t *testing.T) {
	rows, err := lift.ReadPublished(bytes.NewReader(published.Rows))
	require.NoError(t, err)
	require.NotEmpty(t, rows)
	for _, c := range lift.Verify(rows).Checks {
		t.Run(c.Name, func(t *testing.T) {
			require.Empty(t, c.Fault)
			assert.InDelta(t, c.Value, c.Got, c.Tolerance)
			t.Logf("printed %g, here %g, may be off %g: %s (%s)", c.Value, c.Got, c.Tolerance, c.Source, c.Basis)
		})
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
