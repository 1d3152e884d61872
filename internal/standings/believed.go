package standings

import "rimward/internal/standings/tree"

// Believed is what the studio believes once its journal has been weighed: the
// prior, its weights moved by every burn that counts.
func (w *Weighed) Believed() tree.Prior { return w.tree.Believed() }
