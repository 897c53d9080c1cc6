package takeoff

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A product form that is named by its standard alone: those of that standard that
// the part can be made of. The forms are those of products.csv.
func TestFormsOfAStandardAreListed(t *testing.T) {
	for _, tt := range []struct {
		part, form, text, fix string
		not                   []string
	}{
		{"plate: 9 x 9 x 9", "EN 10029", "fits several product forms", "EN 10029:1991 class A plate, EN 10029:2010 class A plate, EN 10029:1991 class B plate or EN 10029:1991 class C plate", nil},
		{"plate: 90 x 90 x 9", "ASTM A6", "is no product form", "ASTM A6 plate", []string{"shapes", "A53"}},
		{"box: 90 x 90 x 90", "ASTM A6", "is no product form", "ASTM A6 plate", []string{"shapes", "A53"}},
		{"tube: {outside: 90, wall: 9, height: 90}", "ASTM A6", "fits several product forms", "ASTM A6 plate or ASTM A6 shapes", []string{"A53"}},
		{"section: W8x31, length: 900, turn: [z 0]", "ASTM A6", "is no product form", "ASTM A6 shapes", []string{"A6 plate"}},
		{"plate: 90 x 90 x 9", "rubbish", "is no product form", "casting, forging, concrete, timber, bought-in, EN 10029:1991 class A plate", []string{"pipe", "angles"}},
	} {
		p := problemsOf(t, head+"- {name: a, form: "+tt.form+", "+tt.part+", at: [0, 0, 0]}\n")
		require.Len(t, p, 1, "want this problem alone:\n%v", p)
		assert.Equal(t, "5:19", fmt.Sprintf("%d:%d", p[0].Line, p[0].Column))
		assert.Contains(t, p[0].Text, tt.text, tt.form)
		assert.Contains(t, p[0].Fix, tt.fix, tt.form)
		for _, not := range tt.not {
			assert.NotContains(t, p[0].Fix, not, tt.form)
		}
	}
}
