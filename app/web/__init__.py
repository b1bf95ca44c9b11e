"""What every page shares: rendering, sessions, forged-form protection, headers and error pages."""
