"""An address in the United States: by rule, by the trained model, and both weighed."""
