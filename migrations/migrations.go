// Package migrations holds the steps that build the journal's tables, in the
// order of their numbers. They only go forward: a step that has been released
// is never changed, and none takes anything away. The package runs nothing.
package migrations

import "embed"

// FS has the steps, one file each.
//
//go:embed *.sql
var FS embed.FS
