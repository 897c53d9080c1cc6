package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseFileSize(t *testing.T) {
	for text, want := range map[string]int64{"8GB": 8e9, "8 gb": 8e9, "500MB": 5e8, "1.5 GiB": 3 << 29, "100 B": 100, "64kB": 64000, " 2 MiB ": 2 << 20} {
		got, err := parseFileSize(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "8", "GB", "-1GB", "0B", "8 XB", "nan GB", "inf GB", "1e30 GB", "8,5 GB", "8GB or so", "0x10GB"} {
		_, err := parseFileSize(text)
		assert.ErrorContains(t, err, "such as 500MB or 8GB", text)
	}
}
