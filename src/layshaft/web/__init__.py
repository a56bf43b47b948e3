"""The shop on a screen: pages over the record. Thin: what is true is worked out in `plan`, kept in `shop`."""
