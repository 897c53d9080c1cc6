package report_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/report"
)

// Of legs that carry alike the page marks the one that the figures above name.
func TestHTMLMarksTheLegThatGoverns(t *testing.T) {
	s := sheet()
	s.Legs.Governing = "C"
	var page bytes.Buffer
	require.NoError(t, report.HTML(&page, s, report.Options{}))
	assert.Equal(t, 1, strings.Count(page.String(), "<strong>governs</strong>"))
	assert.Contains(t, page.String(), `<th scope="row">C<br><strong>governs</strong></th>`)
}
