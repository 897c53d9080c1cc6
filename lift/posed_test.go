package lift_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// A load on two hooks is solved and has no pose on one: nothing that looks at a
// pose may take it for granted.
func TestEveryQuestionOfALoadOnTwoHooks(t *testing.T) {
	yaml := upended("0", ", turn: {to: 90}", "") + "rules: US\nsurroundings: {temperature: 20 C, chemicals: [none], edges: none}\n"
	o := lift.Options{}
	sheet, err := lift.Sheet(read(t, yaml), o)
	require.NoError(t, err)
	assert.True(t, sheet.Legs.Solved)
	assert.Nil(t, sheet.Legs.Posed)
	picked, err := lift.Picks(read(t, yaml), o)
	require.NoError(t, err)
	assert.Len(t, picked.Proposals, 1, "those of the load file, and nothing to hold beside them")
	_, err = lift.Slings(read(t, yaml), o)
	require.NoError(t, err)
}
